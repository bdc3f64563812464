import { useId } from "react";
import type { OrderLine } from "../../../core/run/result.ts";
import { useBook } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";
import { blank, Sentence } from "../../parts/sentence.tsx";

interface Props {
  readonly line: OrderLine;
  readonly at: string;
  readonly currency: string;
  readonly supplier: string;
  /** The chance wanted of having enough, and whether anything is known to vary. */
  readonly chance: number;
  readonly varies: boolean;
  readonly open: boolean;
  readonly onTurn: () => void;
}

/** One line of an order; opened, it says what else could have been ordered and what that would cost. */
export function OrderLineRow(props: Props) {
  const { line, at, currency, open, onTurn } = props;
  const { say, write } = useWords();
  const names = useNames();
  const id = useId();
  return (
    <>
      <tr>
        <th scope="row">
          <button
            type="button"
            className="figure order-name"
            aria-expanded={open}
            aria-controls={id}
            onClick={onTurn}
          >
            {line.name}
            <span className="unseen">, {say("orders.ways")}</span>
          </button>
          {line.insteadOf && (
            <span className="decide small order-instead">
              ▲ {say(`orders.instead.${line.insteadOf.when}`, { name: line.insteadOf.name })}
              {line.insteadOf.lines && (
                <span className="block">
                  {say("standIn.only", {
                    list: write.list(
                      [...new Set(line.insteadOf.lines.map((each) => each.preparation))].map(
                        names.preparation,
                      ),
                    ),
                  })}
                </span>
              )}
            </span>
          )}
        </th>
        <td className="num">
          <Figure at={`${at}/packs`} unfold="over" label={line.name}>
            <strong>{write.number(line.packs, 0)}</strong>
          </Figure>
        </td>
        <td>{line.pack}</td>
        <td className="num wide-only">
          <Figure at={`${at}/need/value`} unfold="over" label={line.name}>
            {write.quantity(line.need)}
          </Figure>
        </td>
        <td className="num quiet wide-only">{write.quantity(line.bought)}</td>
        <td className="num quiet wide-only">{write.money(line.price, currency)}</td>
        <td className="num">{write.money(line.total, currency)}</td>
      </tr>
      {open && (
        <tr className="order-ways" id={id}>
          <td colSpan={7}>
            <Ways {...props} />
          </td>
        </tr>
      )}
    </>
  );
}

/** Less is not worth a word, g. */
const LEAST_G = 0.5;
/** Nor is less than a tenth of a per cent. */
const LEAST_STRAY = 0.001;

function Ways({ line, at, currency, supplier, chance, varies }: Props) {
  const { say, write } = useWords();
  const { library } = useBook();
  const offer = library.suppliers.get(supplier)?.offers.find((each) => each.id === line.offer);
  const asked = line.why.mean.value + line.why.surer.value - line.why.store.value;
  const reached = offer?.breaks.filter((each) => each.fromPacks <= line.packs).at(-1);
  return (
    <ul className="rows">
      <li>
        <Figure at={`${at}/why/mean/value`} unfold="over" label={line.name}>
          {write.quantity(line.why.mean)}
        </Figure>{" "}
        {say("why.mean")}
        {Math.abs(line.why.surer.value) >= LEAST_G && (
          <>
            {", "}
            <Figure at={`${at}/why/surer/value`} unfold="over" label={line.name}>
              {line.why.surer.value < 0 ? "−" : "+"}
              {write.quantity({ ...line.why.surer, value: Math.abs(line.why.surer.value) })}
            </Figure>{" "}
            {say("why.surer", { share: write.share(chance) })}
          </>
        )}
        {line.why.store.value >= LEAST_G && (
          <>
            {", "}
            <Figure at={`${at}/why/store/value`} unfold="over" label={line.name}>
              −{write.quantity(line.why.store)}
            </Figure>{" "}
            {say("why.store")}
          </>
        )}
        {". "}
        {asked - line.need.value >= LEAST_G && (
          <>
            {say("why.covers")}{" "}
            <Figure at={`${at}/need/value`} unfold="over" label={line.name}>
              {write.quantity(line.need)}
            </Figure>
            {". "}
          </>
        )}
        {say("why.packs", { count: line.packs, pack: line.pack, bought: write.quantity(line.bought) })}
      </li>
      {line.why.cooking !== undefined && line.why.cooking >= LEAST_STRAY && (
        <li>
          <Sentence
            text={say("why.cooking", { share: blank("share") })}
            figures={{
              share: { at: `${at}/why/cooking`, shown: write.share(line.why.cooking), label: line.name },
            }}
          />
        </li>
      )}
      {varies && (
        <li>
          {say("why.left")}{" "}
          <Figure at={`${at}/why/left`} unfold="over" label={line.name}>
            {write.money(line.why.left, currency)}
          </Figure>
          {". "}
          {say("why.short", { share: write.share(chance) })}{" "}
          <Figure at={`${at}/why/short`} unfold="over" label={line.name}>
            {write.money(line.why.short, currency)}
          </Figure>
          {say("why.choose")}
        </li>
      )}
      {line.insteadOf && <li>{say("orders.instead.same", { name: line.insteadOf.name })}</li>}
      {line.insteadOf && <li>{say("standIn.labels", { name: line.insteadOf.name })}</li>}
      {line.byWeight && <li>{say("orders.byWeight")}</li>}
      {reached && <li>{say("orders.ways.break", { count: write.number(reached.fromPacks, 0) })}</li>}
      {line.alternatives.length === 0 && <li className="quiet">{say("orders.ways.none")}</li>}
      {line.alternatives.map((other, a) => (
        <li key={other.offer}>
          {say("orders.ways.other", {
            ...{ packs: write.number(other.packs, 0), pack: other.pack, supplier: other.supplier },
          })}
          {": "}
          <Figure at={`${at}/alternatives/${a}/dearer`} unfold="over" label={other.pack}>
            {Math.abs(other.dearer) < 0.005
              ? say("orders.ways.same")
              : say("orders.ways.dearer", { money: write.money(other.dearer, currency) })}
          </Figure>
        </li>
      ))}
    </ul>
  );
}
