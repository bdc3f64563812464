import type { Service } from "../../../core/production/schema.ts";

export type Pin = Service["pins"][number];

/** The service with a task pinned: what the pin says stands beside what was pinned of that task before. */
export function withPin(service: Service, pin: Pin): Service {
  const before = service.pins.find((each) => each.task === pin.task);
  const rest = service.pins.filter((each) => each.task !== pin.task);
  return { ...service, pins: [...rest, { ...before, ...pin }] };
}

/** The service without any pin of a task. */
export function withoutPin(service: Service, task: string): Service {
  return { ...service, pins: service.pins.filter((each) => each.task !== task) };
}
