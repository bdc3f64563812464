import {
  createRootRoute,
  createRoute,
  createRouter,
  type RouteComponent,
  redirect,
  retainSearchParams,
} from "@tanstack/react-router";
import { RunPlace } from "../places/run/run.tsx";
import { Broken, Frame, Lost } from "./frame.tsx";
import {
  AddPlace,
  BenchPlace,
  DishSheet,
  HeatPlace,
  LogPlace,
  NewSupplierPlace,
  PassPlace,
  PastePlace,
  PreparationHeat,
  PreparationSheet,
  PriceListPlace,
  StockPlace,
  StoresPlace,
  SupplierSheet,
} from "./places.ts";
import { readSearch } from "./search.ts";

const root = createRootRoute({
  component: Frame,
  notFoundComponent: Lost,
  validateSearch: readSearch,
  search: { middlewares: [retainSearchParams(["service", "covers", "kitchen"])] },
});
const at = <const P extends string>(path: P, component: RouteComponent) =>
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
