/** Something that takes up a stretch of a stave. */
export interface Laid<T> {
  readonly item: T;
  readonly from: number;
  readonly to: number;
  /** Lanes it is tall; 1 unless given. */
  readonly tall?: number;
}

export interface InLane<T> extends Laid<T> {
  readonly lane: number;
}

/**
 * Puts each into the lowest lanes that are free over its whole stretch, in order of time: nothing lies on another
 * (D8), and the stave is never taller than the most that happen at once need.
 */
export function inLanes<T>(laid: readonly Laid<T>[]): {
  readonly items: readonly InLane<T>[];
  readonly lanes: number;
} {
  const open: { to: number; lane: number; tall: number }[] = [];
  let lanes = 0;
  const items = [...laid]
    .sort((a, b) => a.from - b.from || b.to - a.to)
    .map((entry) => {
      const tall = entry.tall ?? 1;
      for (let i = open.length - 1; i >= 0; i--) if (open[i]!.to <= entry.from) open.splice(i, 1);
      const taken = open.sort((a, b) => a.lane - b.lane);
      let lane = 0;
      for (const other of taken) {
        if (other.lane >= lane + tall) break;
        lane = Math.max(lane, other.lane + other.tall);
      }
      open.push({ to: Math.max(entry.to, entry.from + 1e-9), lane, tall });
      lanes = Math.max(lanes, lane + tall);
      return { ...entry, lane };
    });
  return { items, lanes };
}
