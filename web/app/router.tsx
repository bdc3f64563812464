import {
  createRootRoute,
  createRoute,
  createRouter,
  redirect,
  retainSearchParams,
} from "@tanstack/react-router";
import { BenchPlace } from "../places/bench/bench.tsx";
import { DishSheet } from "../places/bench/dish.tsx";
import { HeatPlace, PreparationHeat } from "../places/bench/heat/heat.tsx";
import { PastePlace } from "../places/bench/paste/paste.tsx";
import { PreparationSheet } from "../places/bench/preparation.tsx";
import { LogPlace } from "../places/log/log.tsx";
import { PassPlace } from "../places/pass/pass.tsx";
import { RunPlace } from "../places/run/run.tsx";
import { AddPlace } from "../places/stores/add.tsx";
import { NewSupplierPlace, PriceListPlace } from "../places/stores/new-supplier.tsx";
import { StockPlace } from "../places/stores/stock.tsx";
import { StoresPlace } from "../places/stores/stores.tsx";
import { SupplierSheet } from "../places/stores/supplier.tsx";
import { Broken, Frame, Lost } from "./frame.tsx";
import { readSearch } from "./search.ts";

const root = createRootRoute({
  component: Frame,
  notFoundComponent: Lost,
  validateSearch: readSearch,
  search: { middlewares: [retainSearchParams(["service", "covers", "kitchen"])] },
});
const at = <const P extends string>(path: P, component: () => React.ReactNode) =>
  createRoute({ getParentRoute: () => root, path, component });

const home = createRoute({
  getParentRoute: () => root,
  path: "/",
  beforeLoad: ({ search }) => {
    throw redirect({ to: "/run/$view", params: { view: "plan" }, search, replace: true });
  },
});
const run = createRoute({
  getParentRoute: () => root,
  path: "/run",
  beforeLoad: ({ search }) => {
    throw redirect({ to: "/run/$view", params: { view: "plan" }, search, replace: true });
  },
});
const pass = createRoute({
  getParentRoute: () => root,
  path: "/pass",
  beforeLoad: ({ search }) => {
    throw redirect({ to: "/pass/$view", params: { view: "cards" }, search, replace: true });
  },
});

export const router = createRouter({
  routeTree: root.addChildren([
    home,
    run,
    pass,
    at("/run/$view", RunPlace),
    at("/pass/$view", PassPlace),
    at("/bench", BenchPlace),
    at("/bench/preparation/$id", PreparationSheet),
    at("/bench/preparation/$id/heat", PreparationHeat),
    at("/bench/heat", HeatPlace),
    at("/bench/paste", PastePlace),
    at("/bench/dish/$id", DishSheet),
    at("/stores", StoresPlace),
    at("/stores/add", AddPlace),
    at("/stores/list", PriceListPlace),
    at("/stores/new-supplier", NewSupplierPlace),
    at("/stores/supplier/$id", SupplierSheet),
    at("/stores/stock", StockPlace),
    at("/log", LogPlace),
    at("/log/$view", LogPlace),
  ]),
  defaultPreload: false,
  defaultErrorComponent: Broken,
  scrollRestoration: true,
});

declare module "@tanstack/react-router" {
  interface Register {
    router: typeof router;
  }
}
