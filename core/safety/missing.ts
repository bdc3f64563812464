import type { Need } from "../plating/schema.ts";
import type { Documents } from "../production/documents.ts";
import type { Menu } from "../production/schema.ts";
import { formOf, STANDARD } from "../production/variants.ts";
import type { Contents, Eaten } from "./contents.ts";

/** Why nothing of a course can be served to a guest, and the nearest thing that could be done. */
export interface Missing {
  readonly why: string;
  readonly mend: string;
}

/** A plate with the things on it that speak against the needs. */
interface Try {
  readonly dish: string;
  readonly name: string;
  readonly variant: string;
  readonly kept: readonly Eaten[];
  readonly bad: readonly Eaten[];
}

/**
 * What is nearest to a plate for these needs in a course: a word nobody has said yet, then as little as possible
 * left off a dish as it is written or one of its variants; what is proposed is checked to meet the needs.
 */
export function missingAt(
  docs: Documents,
  contents: Contents,
  course: Menu["courses"][number],
  needs: readonly Need[],
  names: (eaten: Eaten) => string,
): Missing {
  const tries = course.options.flatMap((option) => triesOf(docs, contents, option.dish, needs));
  tries.sort((a, b) => a.bad.length - b.bad.length);
  const nearest = tries[0];
  if (!nearest) return { why: "the course has no dish", mend: "add a dish to the course" };
  const why = against(contents, nearest, needs, names);
  const unsaid = tries.find((one) => one.bad.every((eaten) => onlyUnsaid(contents, needs, eaten)));
  if (unsaid) {
    const who = [...new Set(unsaid.bad.flatMap((eaten) => contents.unsaidIn(eaten)))];
    const list = who.map((ingredient) => names({ ingredient })).join(", ");
    return { why, mend: `ask what allergens are in ${list}, and write it down: nobody has said` };
  }
  const fits = tries.find((one) => one.kept.length > 0 && contents.meetsWith(needs, one.kept));
  const need = needs.join(" and ");
  if (!fits) return { why, mend: `write a variant of ${nearest.name} for ${need}: nothing on it may stay` };
  const off = fits.bad.map(names).join(" and ");
  const form = fits.variant === STANDARD ? "" : ` (${fits.variant})`;
  return {
    why,
    mend: `leave ${off} off ${fits.name}${form} or put something else there: the rest meets ${need}; write it as a variant`,
  };
}

function triesOf(docs: Documents, contents: Contents, id: string, needs: readonly Need[]): Try[] {
  const dish = docs.dishes.get(id);
  if (!dish) return [];
  return [undefined, ...dish.variants.keys()].map((variant): Try => {
    const form = formOf(dish, "", variant === undefined ? [] : [variant]);
    const eaten = form.placed.map((each) => each.placement);
    const meets = (one: Eaten) => contents.meetsWith(needs, [one]);
    return {
      ...{ dish: id, name: dish.name, variant: form.name },
      kept: eaten.filter(meets),
      bad: eaten.filter((one) => !meets(one)),
    };
  });
}

/** Whether all that speaks against it is that nobody has said what is in it. */
function onlyUnsaid(contents: Contents, needs: readonly Need[], eaten: Eaten): boolean {
  return needs.every((need) => contents.against(need, [eaten]).every(({ why }) => why.endsWith("(unknown)")));
}

/** The first reason, with the way by which it arrives. */
function against(
  contents: Contents,
  { name, bad }: Try,
  needs: readonly Need[],
  names: (eaten: Eaten) => string,
): string {
  for (const need of needs)
    for (const { why, paths } of contents.against(need, bad)) {
      const way = paths[0]?.map((id, i, all) =>
        names(i === all.length - 1 ? { ingredient: id } : { preparation: id }),
      );
      if (way) return `${need}: ${why} in ${name}, ${way.join(" › ")}`;
    }
  return `${name} does not meet ${needs.join(" and ")}`;
}
