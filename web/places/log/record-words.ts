import type { Amount } from "../../../core/quantity/index.ts";
import { numericValue } from "../../../core/quantity/index.ts";
import { useBook } from "../../app/hands.tsx";
import { type Names, useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import type { Recorded } from "../../offline/use-log.ts";

/** Says a record in a line. */
export function useRecordWords(): (body: Recorded) => string {
  const { say, write } = useWords();
  const { library } = useBook();
  const names = useNames();
  const amount = ({ value, unit }: Amount) => write.quantity({ value: numericValue(value), unit });
  const cut = (ingredient: string, id: string) =>
    cutName(
      names,
      library.ingredients.get(ingredient)?.cuts.find((one) => one.id === id)?.name ?? id,
      ingredient,
    );
  const step = (preparation: string, id: string) =>
    `${names.preparation(preparation)}, ${library.preparations.get(preparation)?.steps.find((one) => one.id === id)?.name ?? id}`;
  return (body) => {
    switch (body.kind) {
      case "trim":
        return say("record.trim", {
          ...{ item: cut(body.ingredient, body.cut), ap: write.mass(body.apG), ep: write.mass(body.epG) },
          share: write.share(body.epG / body.apG),
        });
      case "cook":
        return say("record.cook", {
          ...{
            item: step(body.preparation, body.step),
            in: write.mass(body.inG),
            out: write.mass(body.outG),
          },
          share: write.share(body.outG / body.inG),
        });
      case "pieces":
        return say("record.pieces", {
          ...{
            item: names.ingredient(body.ingredient),
            count: `${write.number(body.pieces)} × ${body.piece}`,
          },
          ...{ g: write.mass(body.g), one: write.mass(body.g / body.pieces) },
        });
      case "time":
        return say("record.time", {
          item: step(body.preparation, body.step),
          ...{ actual: write.span(body.actualMin), planned: write.span(body.plannedMin) },
        });
      case "covers":
        return say("record.covers", {
          course:
            library.menus.get(body.menu)?.courses.find(({ id }) => id === body.course)?.name ?? body.course,
          list: write.list(body.dishes.map(({ dish, count }) => `${count} ${names.dish(dish)}`)),
          guaranteed: body.guaranteed ?? "none",
        });
      case "judged":
        return body.counts
          ? say("record.judged.in")
          : say("record.judged.out", { reason: body.reason ?? "" });
      case "accepted": {
        const [, of = "", part = ""] = body.figure.split("/");
        const item = body.figure.startsWith("cut/") ? cut(of, part) : `${names.item(of)}, ${part}`;
        return say("record.accepted", {
          ...{ item, from: write.number(body.from, 3), to: write.number(body.to, 3) },
        });
      }
      case "delivery":
        return say(body.accepted ? "record.delivery" : "record.delivery.refused", {
          ...{ item: names.ingredient(body.of.ingredient), amount: amount(body.amount), lot: body.of.lot },
          ...{ date: write.date(body.useBy), reason: body.reason ?? "" },
        });
      case "used": {
        const into =
          "preparation" in body.into
            ? say("record.batch", { name: names.preparation(body.into.preparation), batch: body.into.batch })
            : names.dish(body.into.dish);
        if (body.batch)
          return say("record.used.batch", {
            into,
            item: say("record.batch", {
              name: names.preparation(body.batch.preparation),
              batch: body.batch.batch,
            }),
          });
        return say("record.used", {
          ...{ into, lot: body.lot!.lot, item: names.ingredient(body.lot!.ingredient) },
          amount: body.amount ? amount(body.amount) : "none",
        });
      }
      case "discarded":
      case "counted":
        return say(`record.${body.kind}`, {
          ...{ item: names.ingredient(body.lot.ingredient), lot: body.lot.lot, amount: amount(body.amount) },
          reason: body.kind === "discarded" ? body.reason : "",
        });
      case "shape":
        return say("record.shape");
      default:
        // Of a kind that another room writes.
        return (body as { kind: string }).kind;
    }
  };
}

/** "Celeriac, peeled": an ingredient in a cut. */
export function cutName(names: Names, cut: string, ingredient: string): string {
  return `${names.ingredient(ingredient)}, ${cut.toLowerCase()}`;
}
