/** Frame, settings, opening, trials, figures, entries. */
export const common = {
  "place.bench": "Bench",
  "place.stores": "Stores",
  "place.run": "Run",
  "place.pass": "Pass",
  "place.log": "Log",

  "frame.skip": "To the page",
  "frame.places": "Places",
  "frame.offline": "No network: the last book is shown.",
  "frame.waiting": "{count, plural, one {# entry waits} other {# entries wait}} to be sent.",
  "frame.broken": "This page could not be drawn.",
  "frame.broken.mend":
    "What you wrote is kept on this tablet. Load the page again; if it stays so, put the last change back.",
  "frame.broken.again": "Load again",
  "frame.lost": "There is nothing here.",
  "frame.lost.back": "Back to the run",

  "opening.loading": "Opening the book",
  "opening.unreachable": "The book can't be reached.",
  "opening.unreachable.mend":
    "Start Tournant on this machine with npm start, or join its network, then try again.",
  "opening.again": "Try again",

  "settings.title": "Settings",
  "settings.units": "Measures",
  "settings.metric": "Metric",
  "settings.us": "US",
  "settings.degrees": "Temperature",
  "settings.clock": "Clock",
  "settings.24": "24 hours",
  "settings.12": "12 hours",
  "settings.ground": "Ground",
  "settings.linen": "Linen",
  "settings.dark": "Dark",
  "settings.name": "Who writes here",

  "book.file": "The book as a file",
  "book.export": "Export",
  "book.import": "Import",
  "book.imported": "The book is read.",

  "trial.title": "Being tried",
  "trial.changes": "{name}: {count, plural, one {# change} other {# changes}} being tried.",
  "trial.new": "{name}: new, not kept yet.",
  "trial.keep": "Keep",
  "trial.back": "Put back",
  "trial.undo": "Undo",
  "trial.elsewhere": "Someone else changed it since. Keep yours over theirs, or take theirs.",
  "trial.over": "Keep mine",
  "trial.theirs": "Take theirs",
  "trial.unreachable": "The server can't be reached. The change stays on this tablet; try again.",

  "margin.open": "Show the margin",
  "margin.close": "Fold the margin",

  "covers.label": "Covers",
  "covers.back": "Back to {count}",

  "figure.perCover": "Per cover",
  "figure.ofPrice": "{share} of the price",
  "figure.orders": "Orders",
  "figure.plates": "Plates",
  "figure.preparations": "from {count, plural, one {# preparation} other {# preparations}}",
  "figure.hands": "Hands",

  "amount.drag": "Drag to change: {label}",
  "amount.empty": "{label} is empty. Write an amount such as 250 g, or press Escape for the one before.",
  "amount.unreadable": "“{typed}” can''t be read as {label}. Write one number and a unit, such as 1 3/4 cup.",
  "amount.unit":
    "“{typed}” has something after the number that is no unit. Write g, kg, mL, L, cup, tbsp, tsp, piece.",

  "empty.service": "No service yet",
  "empty.service.what":
    "A service is a menu, a date, covers and guests in a kitchen; from it everything is computed. Import a book that has one, or export this one to see how a book is written.",

  "cell.contains": "contains",
  "cell.may": "may contain",
  "cell.unknown": "not known, counts as contained",
  "cell.free": "not an ingredient",
  "meets.contains": "not for them",
  "meets.may": "not sure",
  "meets.unknown": "not known",
  "meets.free": "for them",

  "plate.title": "{name} from above, to scale: {list}",
  "plate.guest": "guest",
} as const;
