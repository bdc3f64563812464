/** Verbs that begin a step in five languages, as recipes give orders; common practice, no source. */
const VERBS = new Set(
  (
    "add allow arrange bake baste beat blanch blend blitz boil braise bring brown brush check chill chop coat combine cook cool " +
    "cover crush cut deglaze divide drain drop fill flip fold form fry heat infuse knead leave line make marinate mash mix pan-fry pass " +
    "peel place plate poach pour preheat pre-heat press pressure proof prove pulse push put reduce refrigerate remove repeat rest return " +
    "rinse roast roll rub sauté saute scald scrape sear serve set shape sieve sift simmer slice smoke soak spoon spread sprinkle steam steep " +
    "stir strain stretch sweat tip toast top transfer trim turn unmould wash whip whisk wrap finish freeze grill hold keep let " +
    "abaisser ajouter arroser assaisonner battre beurrer blanchir bouillir braiser chauffer cuire cuisez couper couvrir décorer déglacer " +
    "délayer disposer dorer dresser ébouillanter écraser égoutter émincer enfourner étaler faire faites fouetter foncer frire garnir griller incorporer infuser laisser " +
    "laissez laver mariner mélanger mélangez mettre mettez mijoter mixer monter napper passer pétrir pocher porter poser préchauffer " +
    "préchauffez préparer ranger réserver rôtir saisir saler servir tailler tamiser verser versez ajoutez faites " +
    "agregar agrega agregue añadir añade añada asar batir bata bate calentar calienta cocer cocinar cocina cocine colar colocar coloca cortar corta " +
    "cubrir dejar deja deje dorar dora enfriar escurrir freír freir hervir hornear hornea hornee incorporar incorpora lavar majar mezclar mezcla mezcle pelar picar pica " +
    "poner pon precalentar precalienta rehogar rehoga remojar remover retirar saltear sazonar servir sirve sofreír tapar triturar tritura verter vierte " +
    "aggiungere aggiungete amalgamare bagnare battere bollire coprire cuocere cuocete disporre far fate fare friggere grigliare impastare impastate " +
    "incorporare infornare infornate lasciare lasciate lavare lessare lessate mantecare mescolare mescolate mettere mettete montare passare portare preparare " +
    "rosolare rosolate saltare scaldare scaldate sciogliere scolare servire sfumare soffriggere stendere stendete tagliare tagliate tostare tritare unire unite versare versate " +
    "stellen geben gebt gießen kochen braten backen schmoren rühren verrühren mischen vermischen kneten würzen heizen"
  ).split(" "),
);
const TIME =
  /\d\s?(?:min(?:ut\p{L}*|s)?|mn|['’′]|h|hrs?|hours?|heures?|horas?|ore|ora|std|stunden?|tage?|days?|jours?)(?![\p{L}])|\b(?:overnight|half an hour|mezz['’]ora|media hora|demi-heure)\b/iu;
const HEAT = /\d\s?(?:°|º|˚|[cf](?![\p{L}]))|\bgas(?: mark)? ?\d|\bth\.? ?\d/iu;
/** Opens with the heat or the time itself: "Gas 4, 1 hr 15 mins", "180°C 40 min". */
const BARE_HEAT = /^(?:oven|four|horno|forno|ofen|gas(?: mark)?|th\.?)\s?\d|^\d{2,3}\s?°/iu;
/** "Horno moderado 25 minutos". */
const OVEN_FIRST =
  /^(?:(?:very )?(?:hot|moderate|slow|cool|low|quick) oven|four (?:doux|moyen|modéré|chaud|très chaud)|horno (?:\p{L}+ )?|forno (?:\p{L}+ )?|(?:heißer |im )?(?:backofen|ofen))/iu;

/**
 * True for a line that gives work to do, however short: it begins with such a verb and names a time or a heat, or it
 * is nothing but these.
 */
export function isWork(body: string): boolean {
  if (body.length > 300) return false;
  if (BARE_HEAT.test(body) || (OVEN_FIRST.test(body) && TIME.test(body))) return true;
  const first = /^[\p{L}-]+/u.exec(body)?.[0];
  if (!first || !VERBS.has(first.toLowerCase())) return false;
  const second = /^[\p{L}-]+(.?)/u.exec(body)?.[1];
  return second === " " && (TIME.test(body) || HEAT.test(body));
}
