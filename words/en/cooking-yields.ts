/** How far what cooking makes of a food strays, and how that came. */
export const cookingYields = {
  "why.cooking": "What cooking makes of it strays by {share} from lot to lot.",
  "rule.throughStep": "what is left of the step’s output, and what its takers make of the rest",
  "rule.yieldSpread":
    "of each step that strays, its share of the yield × its spread ÷ its factor; squares added, root taken",
  "rule.shareThrough": "what goes on through it ÷ what is made",
  "rule.cookSpread":
    "of each preparation on the way, what goes through it × how far it strays; squares added, root taken, ÷ the need",
  "rule.meanStray": "each need by its weight × how far it strays, ÷ all",
} as const;
