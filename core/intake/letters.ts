/** Rows of a letter or an e-mail around a recipe: they are kept, and read as nothing. */

const GREETING =
  /^(?:hi|hello|hey|dear|good (?:morning|afternoon|evening)|bonjour|bonsoir|salut|ch(?:er|ère|ers|ères)|hola|buenos días|buenas|querid[oa]s?|estimad[oa]s?|ciao|buongiorno|car[oaie]|gentile|hallo|liebe[rs]?|guten (?:morgen|tag|abend)|moin|servus)(?:\s[\p{L}. &]{1,30})?\s?[,!.:]?$/iu;

const SIGN_OFF =
  /^(?:cheers|thanks|thank you|best|all the best|kind regards|regards|love|yours|see you|merci|bises|bisous|amitiés|cordialement|à (?:bientôt|demain|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche)|saludos|un abrazo|gracias|besos|hasta (?:luego|mañana|pronto)|saluti|grazie|un abbraccio|a presto|baci|gruss|gruß|viele grüße|liebe grüße|lg|danke|bis (?:bald|dann|morgen))(?:[,!. –-]+\p{L}{0,20}){0,2}$/iu;

/** "Hi Jess,", "Bonjour Karim,". */
export const greets = (text: string): boolean => text.length <= 50 && GREETING.test(text);

/** "Cheers, Rob", "À samedi,". */
export const signsOff = (text: string): boolean => text.length <= 50 && SIGN_OFF.test(text);
