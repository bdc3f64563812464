import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Figure } from "../../parts/figure.tsx";
import { placementsOf } from "../../parts/placements.ts";
import { VariantWords } from "../run/variant-words.tsx";

/** The plate-up line by course: who places what, seconds each, minutes for all plates against the window. */
export function PlateUpLine() {
  const { amounts, plan } = useTold();
  const { menu, clock } = useService();
  const { library } = useBook();
  const names = useNames();
  const { say, write } = useWords();
  return (
    <div className="page sheet-page">
      <h1 className="unseen">{say("pass.line")}</h1>
      {(menu?.courses ?? []).map((course) => {
        const plates = (amounts?.plates ?? [])
          .map((p, at) => ({ ...p, at }))
          .filter((p) => p.course === course.id && p.count + p.spare > 0);
        const tasks = (plan?.plan.tasks ?? []).filter(
          (t) => t.kind === "plate" && plates.some((p) => t.id.includes(p.dish) || t.id.includes(course.id)),
        );
        return (
          <section key={course.id}>
            <h2 className="part">
              {course.name}{" "}
              <span className="quiet">{write.hour(clock.textOf(clock.service + course.afterMin))}</span>
            </h2>
            {tasks.map((task) => (
              <p key={task.id}>
                {task.name}: {write.hour(task.start)} – {write.hour(task.end)},{" "}
                {say("pass.hands", { count: task.hands.length })}
              </p>
            ))}
            {plates.map((plate) => {
              const dish = library.dishes.get(plate.dish);
              if (!dish) return null;
              return (
                <div key={plate.dish + plate.variant} className="plate-up">
                  <h3>
                    <span className="dish">{dish.name}</span>
                    <VariantWords of={plate.variant} />
                    <span className="quiet"> × {write.number(plate.count + plate.spare, 0)}</span>
                  </h3>
                  <div className="scroll-x">
                    <table className="table">
                      <thead>
                        <tr>
                          <th className="num">{say("pass.n")}</th>
                          <th>{say("pass.what")}</th>
                          <th className="num">{say("pass.amount")}</th>
                          <th className="num">{say("pass.handsEach")}</th>
                          <th className="num">{say("pass.seconds")}</th>
                        </tr>
                      </thead>
                      <tbody>
                        {placementsOf(dish, plate.variant).map((placement) => (
                          <tr key={placement.n}>
                            <td className="num">{placement.n}</td>
                            <th scope="row">
                              {names.item(placement.preparation ?? placement.ingredient ?? "")}
                            </th>
                            <td className="num">
                              {write.quantity({
                                value: Number(placement.amount.value),
                                unit: placement.amount.unit,
                              })}
                            </td>
                            <td className="num">{placement.hands}</td>
                            <td className="num">{write.number(placement.seconds, 0)} s</td>
                          </tr>
                        ))}
                      </tbody>
                      <tfoot>
                        <tr>
                          <th scope="row" colSpan={4}>
                            {say("pass.onePlate", { window: write.span(dish.windowMin) })}
                          </th>
                          <td className="num">
                            <Figure at={`/plates/${plate.at}/platingSeconds`} unfold="over">
                              <strong>{write.number(plate.platingSeconds, 0)} s</strong>
                            </Figure>
                          </td>
                        </tr>
                      </tfoot>
                    </table>
                  </div>
                </div>
              );
            })}
          </section>
        );
      })}
    </div>
  );
}
