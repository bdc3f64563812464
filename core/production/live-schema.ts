import { z } from "zod";
import { IdSchema } from "../pantry/schema.ts";
import { ClockSchema } from "./schema.ts";

/** What a cook on a tablet says while service runs: the bodies of the log's entries that move the plan. */

const TaskIdSchema = z.string().min(1).max(300);

/** A unit of equipment: "combi-1", "deck-oven#2"; without a number, all units alike. */
const UnitIdSchema = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*(#[1-9]\d*)?$/, 'name equipment, or a unit like "deck-oven#2"');

const said = {
  /** Moment of the run at which it was so; without it the entry's own instant. */
  when: ClockSchema.optional(),
  /**
   * One more than the highest turn its writer knew of: what somebody has seen comes before what they say, however
   * their clocks stand.
   */
  turn: z.number().int().nonnegative().max(1_000_000_000).optional(),
  /** Said in a rehearsal: nothing on the day itself counts it. */
  rehearsal: z.literal(true).optional(),
};

const mark = { ...said, task: TaskIdSchema };
const stretch = {
  ...said,
  from: ClockSchema,
  /** Absent: until somebody says otherwise. */ to: ClockSchema.optional(),
};

/** Where a task stands: written down, so that every tablet shows one plan. */
export const PlaceSchema = z.object({
  task: TaskIdSchema,
  start: ClockSchema,
  end: ClockSchema,
  hands: z.array(IdSchema).max(100),
  /** By the task's uses of equipment, in their order, each part of one that is spread. */
  units: z.array(UnitIdSchema).max(50),
  /** It was broken off and goes on later, perhaps elsewhere. */
  again: z.object({ stopped: ClockSchema, at: ClockSchema }).optional(),
});

export const LiveBodySchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("started"), ...mark }),
  z.object({ kind: z.literal("done"), ...mark }),
  /** Takes the last mark of the task back. */
  z.object({ kind: z.literal("undone"), ...mark }),
  /** It will begin (start) or be done (end) at `to`, `byMin` later than the plan said. */
  z.object({
    kind: z.literal("late"),
    ...mark,
    edge: z.enum(["start", "end"]),
    byMin: z.number().int().positive().max(1440),
    to: ClockSchema,
  }),
  z.object({ kind: z.literal("absent"), ...stretch, person: IdSchema }),
  z.object({ kind: z.literal("closed"), ...stretch, unit: UnitIdSchema }),
  /** These tasks may use other equipment than their steps ask for: somebody in charge has said so. */
  z.object({
    kind: z.literal("instead"),
    ...said,
    each: z
      .array(
        z.object({
          tasks: z.array(TaskIdSchema).min(1).max(2000),
          unit: UnitIdSchema,
          /** Spread over so many units of it, an equal share on each. */
          parts: z.number().int().min(1).max(50).optional(),
        }),
      )
      .min(1)
      .max(200),
  }),
  /** Takes back the entry that this one corrects. */
  z.object({ kind: z.literal("withdrawn"), ...said }),
  /** Where tasks stand from here on: the whole plan when work begins, later what an event has moved. */
  z.object({
    kind: z.literal("placed"),
    ...said,
    /** Entry that moved them. */
    because: z.uuid().optional(),
    places: z.array(PlaceSchema).max(20_000),
  }),
  /** A station has read what moved. */
  z.object({ kind: z.literal("heard"), ...said, of: z.uuid(), station: IdSchema }),
  /** The rehearsal begins anew. */
  z.object({ kind: z.literal("cleared"), ...said }),
]);
export type LiveBody = z.infer<typeof LiveBodySchema>;
export type WrittenPlace = z.infer<typeof PlaceSchema>;

export const LIVE_KINDS: ReadonlySet<string> = new Set(
  LiveBodySchema.options.map((option) => option.shape.kind.value),
);
