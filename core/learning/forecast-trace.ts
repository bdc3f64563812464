import { given } from "../ledger/ledger.ts";
import { over, shortOf, sum, times } from "../ledger/rules.ts";
import type { CameAt } from "./came.ts";
import {
  type CourseAsked,
  type CourseForecast,
  courseForecast,
  heldAt,
  optionsOf,
  placedIn,
} from "./course-forecast.ts";
import { BEFORE_ANY, type CoversForecast, coversOf, ENDS, LEAST_COVERS, TO_SET } from "./forecast.ts";
import * as rules from "./forecast-rules.ts";
import { type Nodes, Noted } from "./noted.ts";

/** Where the numbers of the forecasts stand in a trace. */
export const COVERS_AT = "/forecast/covers";
export const courseAt = (course: string) => `/forecast/courses/${course}`;
/** What was asked on the page: the covers guaranteed, and those of the service. */
export const ASKED = { guaranteed: "asked:/guaranteed", covers: "asked:/covers" } as const;

const fixed = (noted: Noted, name: string, value: number) => noted.given(`const:/forecast/${name}`, value);

/** How every number of the forecast of covers came (README, LE13). */
export function coversTrace(came: readonly CameAt[], guaranteed: number): Nodes {
  const told: CoversForecast = coversOf(came, guaranteed);
  const noted = new Noted(COVERS_AT);
  const none = fixed(noted, "nothing", 0);
  const seen = came.map((one, i) => {
    const courses = one.courses.map(({ first, now }, c) =>
      noted.derived(
        `past/${i}/courses/${c}`,
        sum,
        now.body.dishes.map(({ count }, d) => noted.log(now, `dishes/${d}/count`, count, first.id, "")),
      ),
    );
    const most = noted.derived(`past/${i}/came`, rules.fullest, courses);
    const { first, now } = one.promised;
    const promised = noted.log(now, "guaranteed", one.guaranteed, first.id, "");
    return noted.derived(`past/${i}/kept`, rules.keptOfGuarantee, [most, promised]);
  });
  const belief = [
    fixed(noted, "before-mean", BEFORE_ANY.mean),
    fixed(noted, "before-services", BEFORE_ANY.meanCount),
    fixed(noted, "before-spread", BEFORE_ANY.spread),
    fixed(noted, "spread-services", BEFORE_ANY.spreadCount),
    ...seen,
  ];
  const asked = noted.given(ASKED.guaranteed, guaranteed, "");
  const centre = noted.derived("centre", rules.nextCentre, belief);
  const next = [
    asked,
    centre,
    noted.derived("scale", rules.nextScale, belief),
    noted.derived("freedom", rules.nextFreedom, belief),
  ];
  const unit = "";
  const end = (p: number) => fixed(noted, `share/${p}`, p);
  noted.note("guaranteed", told.guaranteed, unit, given, [asked]);
  noted.note("expected", told.expected, unit, rules.expectedCovers, [asked, centre]);
  noted.note("sd", told.sd, unit, rules.coversStray, next);
  noted.note("low", told.low, unit, rules.fewestCovers, [end(ENDS[0]), ...next]);
  noted.note("high", told.high, unit, rules.mostCovers, [end(ENDS[1]), ...next]);
  const bounds = [fixed(noted, "set-least", TO_SET.least), fixed(noted, "set-most", TO_SET.most)];
  noted.note("set", told.set, unit, rules.coversToSet, [...bounds, end(TO_SET.share), ...next]);
  noted.note("services", told.services, "", rules.servicesOf, [none, ...seen]);
  return noted.nodes;
}

/**
 * How every number of the forecast of a course came (README, LE13).
 * @param menuAt pointer of the menu in the book. @param serviceAt that of the service.
 */
export function courseTrace(asked: CourseAsked, menuAt: string, serviceAt: string): Nodes {
  const { course, menu, service, covers } = asked;
  const told: CourseForecast = courseForecast(asked);
  const noted = new Noted(courseAt(course.id));
  const none = fixed(noted, "nothing", 0);
  const held = heldAt(asked);
  const options = optionsOf(course);
  const c = menu.courses.findIndex(({ id }) => id === course.id);
  const shares = options.map((option) =>
    noted.given(`book:${menuAt}/courses/${c}/options/${course.options.indexOf(option)}/share`, option.share),
  );
  const total = noted.derived("menu-total", sum, shares);
  const prior = fixed(noted, "menu-covers", told.prior);
  const least = fixed(noted, "least-covers", LEAST_COVERS);
  const counts = held.map(({ at, places, counts: of }) =>
    places.map((k, i) => (k < 0 ? none : noted.log(at.now, `dishes/${k}/count`, of[i]!, at.first.id, ""))),
  );
  const history = [noted.number(options.length), ...counts.flat()];
  const apart = noted.note("dispersion", told.dispersion, "1", rules.timesByChance, history);
  const own = noted.derived("own", rules.ownOfService, history);
  const speaking = options.map((_, i) => {
    const before = noted.derived(`dishes/${i}/before`, rules.priorCovers, [prior, least, shares[i]!, total]);
    const cameOf = noted.derived(`dishes/${i}/came`, sum, [none, ...counts.map((one) => one[i]!)]);
    return noted.derived(`dishes/${i}/speaking`, rules.speakFor, [before, cameOf, apart]);
  });
  const all = noted.derived("speaking", sum, speaking);
  const whole = noted.derived("whole", rules.wholeOf, [own, all]);
  const placed = placedIn(asked).map((k) =>
    noted.given(`book:${serviceAt}/guests/${k}/count`, service.guests[k]!.count, ""),
  );
  const open = noted.note("open", told.open, "", shortOf, [
    noted.given(ASKED.covers, covers, ""),
    noted.derived("placed", sum, [none, ...placed]),
  ]);
  const end = (p: number) => fixed(noted, `share/${p}`, p);
  told.dishes.forEach((dish, i) => {
    const at = `dishes/${i}`;
    const share = noted.note(`${at}/share`, dish.share, "ratio", over, [speaking[i]!, all]);
    noted.note(`${at}/menu`, dish.menu, "ratio", over, [shares[i]!, total]);
    noted.note(`${at}/mean`, dish.mean, "", times, [open, share]);
    noted.note(`${at}/sd`, dish.sd, "", rules.platesStray, [open, share, whole]);
    if (options.length < 2) {
      noted.note(`${at}/low`, dish.low, "", given, [open]);
      noted.note(`${at}/high`, dish.high, "", given, [open]);
      return;
    }
    noted.note(`${at}/low`, dish.low, "", rules.platesAt, [end(ENDS[0]), open, share, whole]);
    noted.note(`${at}/high`, dish.high, "", rules.platesAt, [end(ENDS[1]), open, share, whole]);
  });
  noted.note("prior", told.prior, "", given, [prior]);
  noted.note("services", told.services, "", rules.servicesOf, [
    none,
    ...counts.map((_, s) => noted.number(s + 1)),
  ]);
  noted.note("came", told.came, "", sum, [none, ...counts.flat()]);
  return noted.nodes;
}
