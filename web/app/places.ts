import { lazyRouteComponent } from "@tanstack/react-router";
import { fetchSheets } from "../places/run/run.tsx";

// Each place comes when it is opened: the first page waits for itself alone.
const bench = () => import("../places/bench/index.ts");
const stores = () => import("../places/stores/index.ts");
const pass = () => import("../places/pass/pass.tsx");
const log = () => import("../places/log/log.tsx");

export const BenchPlace = lazyRouteComponent(bench, "BenchPlace");
export const DishSheet = lazyRouteComponent(bench, "DishSheet");
export const HeatPlace = lazyRouteComponent(bench, "HeatPlace");
export const PastePlace = lazyRouteComponent(bench, "PastePlace");
export const PreparationHeat = lazyRouteComponent(bench, "PreparationHeat");
export const PreparationSheet = lazyRouteComponent(bench, "PreparationSheet");
export const AddPlace = lazyRouteComponent(stores, "AddPlace");
export const NewSupplierPlace = lazyRouteComponent(stores, "NewSupplierPlace");
export const PriceListPlace = lazyRouteComponent(stores, "PriceListPlace");
export const StockPlace = lazyRouteComponent(stores, "StockPlace");
export const StoresPlace = lazyRouteComponent(stores, "StoresPlace");
export const SupplierSheet = lazyRouteComponent(stores, "SupplierSheet");
export const PassPlace = lazyRouteComponent(pass, "PassPlace");
export const LogPlace = lazyRouteComponent(log, "LogPlace");

/** Fetches every place, so that a tablet that loses its network still opens each. */
export async function fetchPlaces(): Promise<void> {
  await Promise.all([bench(), stores(), pass(), log(), fetchSheets()]);
}
