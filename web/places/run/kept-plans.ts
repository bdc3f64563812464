import { useSyncExternalStore } from "react";
import type { KeptPlan } from "../../../core/run/compare.ts";

/** Plans kept by name on this tablet, newest first; they are read only, beside the plan that stands. */
const KEY = "tournant plans";
const MOST = 6;

let plans: readonly KeptPlan[] = read();
const listeners = new Set<() => void>();

function read(): readonly KeptPlan[] {
  try {
    const list = JSON.parse(localStorage.getItem(KEY) ?? "[]") as unknown;
    return Array.isArray(list) ? (list as KeptPlan[]) : [];
  } catch {
    return [];
  }
}

function write(next: readonly KeptPlan[]): void {
  plans = next;
  try {
    localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // A tablet without room keeps them until the page is closed.
  }
  for (const listener of listeners) listener();
}

export const keepPlan = (plan: KeptPlan): void =>
  write([plan, ...plans.filter((each) => each.name !== plan.name)].slice(0, MOST));
export const dropPlan = (name: string): void => write(plans.filter((each) => each.name !== name));

export function useKeptPlans(service: string): readonly KeptPlan[] {
  const all = useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => plans,
  );
  return all.filter((each) => each.service === service);
}
