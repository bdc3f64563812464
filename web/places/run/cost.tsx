import { Link } from "@tanstack/react-router";
import { wordFor } from "../../../words/catalogue.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";

/** Plate cost by dish and variant, then what each preparation costs. */
export function CostView() {
  const { amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  if (!amounts) return null;
  const { cost } = amounts;
  const preparations = cost.preparations.map((p, i) => ({ ...p, i })).sort((a, b) => b.total - a.total);
  return (
    <div className="page">
      <p className="large">
        {say("cost.menu")}{" "}
        <Figure at="/cost/menu">
          <strong>{write.money(cost.menu, cost.currency)}</strong>
        </Figure>
        {cost.menuShare !== undefined && (
          <>
            {" "}
            <Figure at="/cost/menuShare">
              {say("figure.ofPrice", { share: write.share(cost.menuShare) })}
            </Figure>
          </>
        )}
      </p>
      <p className="quiet">
        {say("cost.used")} <Figure at="/cost/used">{write.money(cost.used, cost.currency)}</Figure>,{" "}
        {say("orders.leftover")}{" "}
        <Figure at="/cost/leftover">{write.money(cost.leftover, cost.currency)}</Figure>
      </p>
      <h2 className="part">{say("cost.plates")}</h2>
      <div className="scroll-x">
        <table className="table">
          <thead>
            <tr>
              <th>{say("guests.dish")}</th>
              <th>{say("guests.variant")}</th>
              <th className="num">{say("cost.plate")}</th>
              <th className="num">{say("cost.share")}</th>
            </tr>
          </thead>
          <tbody>
            {cost.perPlate.map((plate, i) => (
              <tr key={plate.dish + plate.variant}>
                <th scope="row" className="dish">
                  <Link to="/bench/dish/$id" params={{ id: plate.dish }}>
                    {names.dish(plate.dish)}
                  </Link>
                </th>
                <td>
                  {plate.variant === "standard" ? (
                    <span className="quiet">{say("guests.standard")}</span>
                  ) : (
                    plate.variant
                      .split("+")
                      .map((n) => wordFor(say, "need", n))
                      .join(", ")
                  )}
                </td>
                <td className="num">
                  <Figure at={`/cost/perPlate/${i}/plate`} unfold="over" label={names.dish(plate.dish)}>
                    {write.money(plate.plate, cost.currency)}
                  </Figure>
                </td>
                <td className="num quiet">{plate.share === undefined ? "" : write.share(plate.share)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <h2 className="part">{say("cost.preparations")}</h2>
      <div className="scroll-x">
        <table className="table">
          <thead>
            <tr>
              <th>{say("cost.preparation")}</th>
              <th className="num">{say("cost.perKg")}</th>
              <th className="num">{say("cost.total")}</th>
            </tr>
          </thead>
          <tbody>
            {preparations.map((p) => (
              <tr key={p.preparation}>
                <th scope="row">
                  <Link to="/bench/preparation/$id" params={{ id: p.preparation }}>
                    {names.preparation(p.preparation)}
                  </Link>
                </th>
                <td className="num quiet">{write.money(p.perKg, cost.currency)}</td>
                <td className="num">
                  <Figure
                    at={`/cost/preparations/${p.i}/total`}
                    unfold="over"
                    label={names.preparation(p.preparation)}
                  >
                    {write.money(p.total, cost.currency)}
                  </Figure>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
