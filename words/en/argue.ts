/** A plan to argue with: why, moving, pins, conflicts, remedies, another plan beside it, what is good. */
export const argue = {
  "why.later": "Why not later?",
  "why.earlier": "Why not earlier?",
  "why.stands": "It cannot move, everything else left as it is:",
  "why.play": "It can move {play}, to {until}. Then:",
  "why.asking": "Asking why.",
  "why.later.plan": "Why it stands here is said when the plan is made.",
  "why.circle": "They hold each other: move them together.",

  "move.title": "Moving a task",
  "move.keys": "Enter moves the chosen task: arrows by 5 minutes, Enter keeps it as a pin, Escape gives up.",
  "move.start": "Move it",
  "move.earlier": "5 minutes earlier",
  "move.later": "5 minutes later",
  "move.keep": "Pin it here",
  "move.cancel": "Leave it",
  "move.fits":
    "{count, plural, =0 {Fits; nothing else moves.} one {Fits; one other moves.} other {Fits; # others move.}}",
  "move.breaks":
    "{broken, plural, one {Breaks a rule} other {Breaks # rules}}{count, plural, =0 {; nothing else moves.} one {; one other moves.} other {; # others move.}}",
  "move.spare": "Spare {before} → {after}.",
  "move.asking": "Trying it.",
  "move.waiting": "What gives is said when the plan is made.",
  "move.quick": "A quick answer around the plan as it stands. Pinned, the whole plan is made anew.",

  "pin.title": "Pinned",
  "pin.here": "Pin as it stands",
  "pin.off": "Unpin",
  "pin.start": "to {start}",
  "pin.hands": "hands {hands}",
  "pin.equipment": "in {equipment}",
  "pin.list": "{count, plural, one {# pinned task} other {# pinned tasks}}",
  "pin.all": "Unpin all",

  "conflict.title": "These cannot all be kept",
  "conflict.any": "Give up any one of them and the rest can be kept.",
  "remedy.try": "Try it",
} as const;
