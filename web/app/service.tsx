import { useNavigate, useSearch } from "@tanstack/react-router";
import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useState } from "react";
import { type Clock, clockOf } from "../../core/production/clock.ts";
import type { Kitchen, Menu, Service } from "../../core/production/schema.ts";
import { useBook, useBookState, useEntries, useHands } from "./hands.tsx";
import type { ServiceSearch } from "./search.ts";

/** The service in hand: what is asked of the worker, and what the places speak about. */
export interface ServiceHere {
  readonly service: Service;
  readonly kitchen: Kitchen;
  readonly menu: Menu | undefined;
  readonly clock: Clock;
  readonly setKitchen: (id: string) => void;
  readonly setService: (id: string) => void;
}

/** The covers asked for, apart from the service: they change with every step of a slider. */
export interface CoversHere {
  readonly covers: number;
  /** @param settled the slider was let go: the address keeps the figure */
  readonly setCovers: (covers: number, settled: boolean) => void;
}

const Here = createContext<ServiceHere | undefined>(undefined);
const Count = createContext<CoversHere | undefined>(undefined);

/** Chooses the service from the address, asks for it, and keeps the address in step. */
export function ServiceProvider({
  children,
  without,
}: {
  readonly children: ReactNode;
  readonly without: ReactNode;
}) {
  const { book, library } = useBook();
  const { version } = useBookState();
  const { runner } = useHands();
  const { entries } = useEntries();
  const search = useSearch({ strict: false }) as ServiceSearch;
  const navigate = useNavigate();
  const service = (search.service && library.services.get(search.service)) || book.services[0];
  const kitchen =
    service &&
    ((search.kitchen && library.kitchens.get(search.kitchen)) || library.kitchens.get(service.kitchen));
  const [live, setLive] = useState<{ service: string; covers: number } | undefined>(undefined);
  const covers =
    (live && live.service === service?.id ? live.covers : undefined) ?? search.covers ?? service?.covers ?? 0;

  const serviceId = service?.id;
  const kitchenId = kitchen?.id;
  const own = service?.kitchen === kitchenId;
  useEffect(() => {
    if (!serviceId) return;
    runner.ask(book, version, { service: serviceId, covers, kitchen: own ? undefined : kitchenId });
  }, [runner, book, version, serviceId, covers, kitchenId, own]);
  useEffect(() => {
    if (serviceId) void entries.open(serviceId);
  }, [entries, serviceId]);

  const go = useCallback(
    (more: ServiceSearch) =>
      void navigate({
        to: ".",
        search: (before: ServiceSearch) => ({ ...before, ...more }),
        replace: true,
      } as never),
    [navigate],
  );
  const zone = kitchen?.zone;
  const at = service?.at;
  const horizon = service?.horizon;
  const clock = useMemo(
    () => (zone && at && horizon ? clockOf(at, zone, horizon) : undefined),
    [zone, at, horizon],
  );
  const written = service?.covers;
  const here = useMemo<ServiceHere | undefined>(() => {
    if (!service || !kitchen || !clock) return undefined;
    return {
      service,
      kitchen,
      menu: library.menus.get(service.menu),
      clock,
      setKitchen: (id) => go({ kitchen: id === service.kitchen ? undefined : id }),
      setService: (id) => go({ service: id, covers: undefined, kitchen: undefined }),
    };
  }, [service, kitchen, clock, library, go]);
  const count = useMemo<CoversHere>(
    () => ({
      covers,
      setCovers: (next, settled) => {
        setLive({ service: serviceId ?? "", covers: next });
        if (settled) go({ covers: next === written ? undefined : next });
      },
    }),
    [covers, serviceId, written, go],
  );
  return here ? (
    <Here value={here}>
      <Count value={count}>{children}</Count>
    </Here>
  ) : (
    without
  );
}

export function useService(): ServiceHere {
  const here = useContext(Here);
  if (!here) throw new Error("a service is used where there is none");
  return here;
}

/** The service in hand, where there may be none (Bench and Stores work without). */
export function useMaybeService(): ServiceHere | undefined {
  return useContext(Here);
}

export function useCovers(): CoversHere {
  const count = useContext(Count);
  if (!count) throw new Error("covers are used where there is no service");
  return count;
}
