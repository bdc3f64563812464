import type { Preparation, Step } from "../formula/schema.ts";
import type { Item } from "../pantry/schema.ts";
import type { Placement } from "../plating/schema.ts";
import { MOST_PROBLEMS, type Problem, pointerOf } from "./problem.ts";
import { type Book, DOCUMENT_KINDS } from "./schema.ts";

type Keys = readonly PropertyKey[];

/** Everything in a well-formed book that leads nowhere, stands twice or turns in a circle (B3, B4). */
export function referenceProblems(book: Book): Problem[] {
  const found: Problem[] = [];
  const enough = () => found.length >= MOST_PROBLEMS;
  const say = (keys: Keys, what: string, mend: string) => {
    if (!enough()) found.push({ path: pointerOf(keys), what, mend });
  };
  const ids = Object.fromEntries(
    DOCUMENT_KINDS.map((kind) => [kind, uniqueIds(book[kind], [kind], say)]),
  ) as Record<(typeof DOCUMENT_KINDS)[number], Set<string>>;
  const cuts = new Map(book.ingredients.map((ing) => [ing.id, new Set(ing.cuts.map((cut) => cut.id))]));
  const need = (set: Set<string>, id: string, keys: Keys, kind: string) => {
    // Looking for near names is slow in a large book: not for a problem that is not told.
    if (!set.has(id) && !enough())
      say(keys, `there is no ${kind} "${id}"`, `add it, or name one there is${nearest(id, set)}`);
  };
  const needCut = (ingredient: string, cut: string | undefined, keys: Keys) => {
    const known = cuts.get(ingredient);
    if (cut !== undefined && known && !known.has(cut) && !enough())
      say(
        keys,
        `"${ingredient}" has no cut "${cut}"`,
        `add the cut to the ingredient, or name one there is${nearest(cut, known)}`,
      );
  };
  const needItem = (item: Item, keys: Keys) => {
    if ("preparation" in item)
      need(ids.preparations, item.preparation, [...keys, "preparation"], "preparation");
    else {
      need(ids.ingredients, item.ingredient, [...keys, "ingredient"], "ingredient");
      needCut(item.ingredient, item.cut, [...keys, "cut"]);
    }
  };

  book.ingredients.forEach((ingredient, i) => {
    uniqueIds(ingredient.cuts, ["ingredients", i, "cuts"], say);
  });
  const offers = new Set<string>();
  book.suppliers.forEach((supplier, i) => {
    supplier.offers.forEach((offer, j) => {
      const keys = ["suppliers", i, "offers", j];
      if (offers.has(offer.id))
        say([...keys, "id"], `the offer id "${offer.id}" stands twice`, "give one of them another id");
      offers.add(offer.id);
      need(ids.ingredients, offer.ingredient, [...keys, "ingredient"], "ingredient");
      needCut(offer.ingredient, offer.cut, [...keys, "cut"]);
      if (offer.from && offer.until && offer.from > offer.until)
        say([...keys, "until"], "the offer ends before it begins", "put the dates in order");
      offer.breaks.forEach((at, k) => {
        if (k > 0 && at.fromPacks <= offer.breaks[k - 1]!.fromPacks)
          say([...keys, "breaks", k, "fromPacks"], "price breaks do not rise", "order them by fromPacks");
      });
    });
  });

  const stepsOf = new Map(
    book.preparations.map((prep) => [prep.id, new Set(prep.steps.map((step) => step.id))]),
  );
  book.preparations.forEach((prep, i) => {
    const keys: Keys = ["preparations", i];
    const steps = uniqueIds(prep.steps, [...keys, "steps"], say);
    const lines = uniqueIds(prep.lines, [...keys, "lines"], say);
    prep.lines.forEach((line, j) => {
      needItem(line.item, [...keys, "lines", j, "item"]);
      line.substitutes?.forEach(({ ingredient, cut }, k) => {
        needItem({ ingredient, ...(cut === undefined ? {} : { cut }) }, [
          ...keys,
          "lines",
          j,
          "substitutes",
          k,
        ]);
      });
      need(steps, line.step, [...keys, "lines", j, "step"], "step");
    });
    const stepOf = new Map(prep.steps.map((step) => [step.id, step]));
    const stepOfLine = new Map(prep.lines.map((line) => [line.id, line.step]));
    prep.steps.forEach((step, j) => {
      step.from.forEach((from, k) => {
        need(steps, typeof from === "string" ? from : from.step, [...keys, "steps", j, "from", k], "step");
      });
      const named = new Set<string>();
      const discarded = step.discard?.lines ?? [];
      const before = discarded.length > 0 ? upTo(stepOf, step.id) : new Set<string>();
      discarded.forEach(({ line: id }, k) => {
        const at = [...keys, "steps", j, "discard", "lines", k, "line"];
        need(lines, id, at, "line");
        const entersAt = stepOfLine.get(id);
        if (entersAt !== undefined && !before.has(entersAt))
          say(
            at,
            `"${id}" is not yet in the food at step "${step.id}"`,
            "name a line of this step or of a step before it",
          );
        if (named.has(id)) say(at, `"${id}" is taken away twice in this step`, "name it once");
        named.add(id);
      });
      step.after.forEach((after, k) => {
        const at = [...keys, "steps", j, "after", k];
        if (typeof after.step === "string") need(steps, after.step, [...at, "step"], "step");
        else {
          need(ids.preparations, after.step.preparation, [...at, "step", "preparation"], "preparation");
          const there = stepsOf.get(after.step.preparation);
          if (there) need(there, after.step.step, [...at, "step", "step"], "step");
        }
        if (after.mostMin !== undefined && after.mostMin < after.leastMin)
          say(
            [...at, "mostMin"],
            "the longest wait is shorter than the least wait",
            "make mostMin at least leastMin",
          );
      });
      if (step.work && step.work.hands.most < step.work.hands.least)
        say(
          [...keys, "steps", j, "work", "hands", "most"],
          "the most hands are fewer than the least",
          "make most at least least",
        );
    });
    const circle = circleOf(prep.steps);
    if (circle)
      say(
        [...keys, "steps"],
        `steps turn in a circle: ${named(circle)}`,
        "let one of them not wait for the other",
      );
    const shares = new Map<string, number>();
    for (const from of prep.steps.flatMap((step) => step.from)) {
      const [id, share] = typeof from === "string" ? [from, 1] : [from.step, from.share];
      shares.set(id, (shares.get(id) ?? 0) + share);
    }
    for (const [id, share] of shares)
      if (share > 1 + 1e-9)
        say(
          [...keys, "steps"],
          `${share} times the output of step "${id}" is used`,
          "let the shares of a step add to 1 or less",
        );
  });
  const circle = preparationCircle(book.preparations);
  if (circle)
    say(
      ["preparations", book.preparations.findIndex((prep) => prep.id === circle[0])],
      `preparations turn in a circle: ${named(circle)}`,
      "a preparation cannot be made of itself: take it out of one of these",
    );

  book.dishes.forEach((dish, i) => {
    const keys: Keys = ["dishes", i];
    const placement = (p: Placement, at: Keys) => {
      if (p.preparation !== undefined)
        need(ids.preparations, p.preparation, [...at, "preparation"], "preparation");
      if (p.ingredient !== undefined) {
        need(ids.ingredients, p.ingredient, [...at, "ingredient"], "ingredient");
        needCut(p.ingredient, p.cut, [...at, "cut"]);
      }
    };
    const numbers = new Set<number>();
    dish.placements.forEach((p, j) => {
      const at = [...keys, "placements", j];
      if (numbers.has(p.n))
        say([...at, "n"], `the number ${p.n} stands twice on the plate`, "number the placements 1, 2, 3 …");
      numbers.add(p.n);
      placement(p, at);
    });
    dish.variants.forEach((variant, j) => {
      const at = [...keys, "variants", j];
      const known = (n: number, where: Keys) => {
        if (!numbers.has(n))
          say(where, `there is no placement ${n} on this plate`, "name a number that stands in placements");
      };
      variant.drop.forEach((n, k) => {
        known(n, [...at, "drop", k]);
      });
      variant.replace.forEach((r, k) => {
        known(r.n, [...at, "replace", k, "n"]);
        placement(r.placement, [...at, "replace", k, "placement"]);
      });
      variant.add.forEach((p, k) => {
        placement(p, [...at, "add", k]);
      });
    });
  });

  book.menus.forEach((menu, i) => {
    const around = menu.surround;
    if (around && "items" in around)
      around.items.forEach(({ item }, k) => {
        needItem(item, ["menus", i, "surround", "items", k, "item"]);
      });
    uniqueIds(menu.courses, ["menus", i, "courses"], say);
    menu.courses.forEach((course, j) => {
      course.options.forEach((option, k) => {
        need(ids.dishes, option.dish, ["menus", i, "courses", j, "options", k, "dish"], "dish");
      });
      if (course.options.every((option) => option.share === 0))
        say(
          ["menus", i, "courses", j, "options"],
          "no option of this course has a share above 0",
          "give at least one option a share",
        );
    });
  });

  book.kitchens.forEach((kitchen, i) => {
    const keys: Keys = ["kitchens", i];
    const stations = uniqueIds(kitchen.stations, [...keys, "stations"], say);
    const skills = uniqueIds(kitchen.skills, [...keys, "skills"], say);
    uniqueIds(kitchen.crew, [...keys, "crew"], say);
    uniqueIds(kitchen.equipment, [...keys, "equipment"], say);
    kitchen.crew.forEach((person, j) => {
      person.skills.forEach((skill, k) => {
        need(skills, skill, [...keys, "crew", j, "skills", k], "skill");
      });
      if (person.station) need(stations, person.station, [...keys, "crew", j, "station"], "station");
    });
    kitchen.equipment.forEach((piece, j) => {
      if (piece.station) need(stations, piece.station, [...keys, "equipment", j, "station"], "station");
      if (piece.rangeC && piece.rangeC[0] > piece.rangeC[1])
        say(
          [...keys, "equipment", j, "rangeC"],
          "the range runs from hot to cold",
          "write the lower temperature first",
        );
    });
    kitchen.walk.forEach((walk, j) => {
      need(stations, walk.from, [...keys, "walk", j, "from"], "station");
      need(stations, walk.to, [...keys, "walk", j, "to"], "station");
    });
    kitchen.suppliers.forEach((supplier, j) => {
      need(ids.suppliers, supplier, [...keys, "suppliers", j], "supplier");
    });
    if (!isZone(kitchen.zone))
      say(
        [...keys, "zone"],
        `"${kitchen.zone}" is not a time zone`,
        'use an IANA name, like "Europe/London"',
      );
  });

  const menus = new Map(book.menus.map((menu) => [menu.id, menu]));
  book.services.forEach((service, i) => {
    const keys: Keys = ["services", i];
    need(ids.menus, service.menu, [...keys, "menu"], "menu");
    need(ids.kitchens, service.kitchen, [...keys, "kitchen"], "kitchen");
    uniqueIds(service.guests, [...keys, "guests"], say);
    const persons = service.guests.reduce((sum, group) => sum + group.count, 0);
    if (persons > service.covers)
      say(
        [...keys, "guests"],
        `${persons} guests are named but there are ${service.covers} covers`,
        "raise the covers or take guests out",
      );
    service.guests.forEach((group, j) => {
      group.choices.forEach((choice, k) => {
        const course = menus.get(service.menu)?.courses.find((c) => c.id === choice.course);
        const at = [...keys, "guests", j, "choices", k];
        if (menus.has(service.menu) && !course)
          say([...at, "course"], `the menu has no course "${choice.course}"`, "name a course of the menu");
        else if (course && !course.options.some((option) => option.dish === choice.dish))
          say(
            [...at, "dish"],
            `"${choice.dish}" is not an option of this course`,
            "name one of the course's dishes",
          );
      });
    });
    service.stock.forEach((stock, j) => {
      needItem(stock.item, [...keys, "stock", j, "item"]);
    });
  });
  return found;
}

function uniqueIds(
  list: readonly { id: string }[],
  keys: Keys,
  say: (keys: Keys, what: string, mend: string) => void,
): Set<string> {
  const seen = new Set<string>();
  list.forEach((document, i) => {
    if (seen.has(document.id))
      say([...keys, i, "id"], `the id "${document.id}" stands twice`, "give one of them another id");
    seen.add(document.id);
  });
  return seen;
}

/** A circle among the steps of one preparation, first step repeated at its end; undefined when there is none. */
function circleOf(steps: readonly Step[]): string[] | undefined {
  const before = new Map(
    steps.map((step) => [
      step.id,
      [
        ...step.from.map((from) => (typeof from === "string" ? from : from.step)),
        ...step.after.flatMap((after) => (typeof after.step === "string" ? [after.step] : [])),
      ],
    ]),
  );
  return firstCircle(before);
}

function preparationCircle(preparations: readonly Preparation[]): string[] | undefined {
  return firstCircle(
    new Map(
      preparations.map((prep) => [
        prep.id,
        prep.lines.flatMap((line) => ("preparation" in line.item ? [line.item.preparation] : [])),
      ]),
    ),
  );
}

/** A circle in words; of a very long one its beginning and its end. */
function named(circle: readonly string[]): string {
  if (circle.length <= 50) return circle.join(" > ");
  return `${circle.slice(0, 25).join(" > ")} > … > ${circle.slice(-25).join(" > ")}`;
}

/** Depth-first search without recursion, so that a very deep book cannot exhaust the stack. */
function firstCircle(edges: ReadonlyMap<string, readonly string[]>): string[] | undefined {
  const state = new Map<string, "open" | "done">();
  for (const root of edges.keys()) {
    if (state.has(root)) continue;
    const trail: { id: string; next: number }[] = [{ id: root, next: 0 }];
    state.set(root, "open");
    while (trail.length > 0) {
      const top = trail.at(-1)!;
      const targets = edges.get(top.id) ?? [];
      if (top.next >= targets.length) {
        state.set(top.id, "done");
        trail.pop();
        continue;
      }
      const target = targets[top.next++]!;
      if (state.get(target) === "open") {
        const from = trail.findIndex((entry) => entry.id === target);
        return [...trail.slice(from).map((entry) => entry.id), target];
      }
      if (!state.has(target) && edges.has(target)) {
        state.set(target, "open");
        trail.push({ id: target, next: 0 });
      }
    }
  }
  return undefined;
}

function nearest(id: string, known: ReadonlySet<string>): string {
  const start = id.slice(0, 4);
  const close = [...known].filter(
    (other) => other.startsWith(start) || other.includes(id) || id.includes(other),
  );
  return close.length > 0
    ? ` (perhaps ${close
        .slice(0, 3)
        .map((c) => `"${c}"`)
        .join(", ")})`
    : "";
}

function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/** A step and all that come before it. */
function upTo(steps: ReadonlyMap<string, Step>, id: string): Set<string> {
  const found = new Set([id]);
  const open = [id];
  for (let top = open.pop(); top !== undefined; top = open.pop())
    for (const from of steps.get(top)?.from ?? []) {
      const before = typeof from === "string" ? from : from.step;
      if (found.has(before)) continue;
      found.add(before);
      open.push(before);
    }
  return found;
}
