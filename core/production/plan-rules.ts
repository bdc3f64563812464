/**
 * The sums of the plan as pure functions of numbers; a trace names them and applying them again gives the same
 * figure. Minutes, grams, kilograms, seconds. README, P2 to P9.
 */

/** Guards a sum of decimals against its last bit before it is rounded up. */
const HAIR = 1e-9;

/** Minutes rounded up to whole ones: durations and least waits. */
export function wholeUp(minutes: number): number {
  return Math.ceil(minutes - HAIR) + 0;
}

/** Minutes rounded down to whole ones: longest waits and holds. */
export function wholeDown(minutes: number): number {
  return Math.floor(minutes + HAIR) + 0;
}

/** What falls to one of several equal loads (g, pieces, room). */
export function ofLoad(whole: number, loads: number): number {
  return whole / loads;
}

/**
 * Elapsed minutes of work whose variable part is shared by the hands, with the share around it (weighing,
 * moving, labelling, cleaning), rounded up.
 */
export function dividedWorkMinutes(
  fixedMin: number,
  perKgMin: number,
  grams: number,
  perPieceMin: number,
  pieces: number,
  perBatchMin: number,
  hands: number,
  around: number,
): number {
  const variable = (perKgMin * grams) / 1000 + perPieceMin * pieces + perBatchMin;
  return wholeUp((fixedMin + variable / hands) * (1 + around));
}

/** As `dividedWorkMinutes` when all hands are needed the whole time. */
export function commonWorkMinutes(
  fixedMin: number,
  perKgMin: number,
  grams: number,
  perPieceMin: number,
  pieces: number,
  perBatchMin: number,
  around: number,
): number {
  return dividedWorkMinutes(fixedMin, perKgMin, grams, perPieceMin, pieces, perBatchMin, 1, around);
}

/** Minutes of waiting that grow with the mass, rounded up. */
export function passiveMinutes(fixedMin: number, perKgMin: number, grams: number): number {
  return wholeUp(fixedMin + (perKgMin * grams) / 1000);
}

/** Minutes of plate-up: plates × seconds of one pair of hands a plate, over the hands. */
export function plateUpMinutes(handSeconds: number, hands: number): number {
  return wholeUp(handSeconds / hands / 60);
}

/** Seconds of hands of one kind of plate: plates × Σ seconds × hands. */
export function handSeconds(plates: number, secondsEach: number): number {
  return plates * secondsEach;
}

/** Room a load takes: space × what it is per (1, kg or pieces). */
export function roomTaken(space: number, per: number): number {
  return space * per;
}

/** Room that comes whole only: shelves, burners, pieces. */
export function wholeRoom(room: number): number {
  return Math.ceil(room - HAIR) + 0;
}

/** What of an ingredient's grams falls to one batch. */
export function partOfBatch(grams: number, batchG: number, madeG: number): number {
  return grams * (batchG / madeG);
}

/** Loads in which so much room goes on a unit that has `capacity`. */
export function loadsNeeded(room: number, capacity: number): number {
  return wholeRoom(room / capacity);
}

/** Room per kg of the larger of the masses that enter and leave. */
export function roomByMass(spacePerKg: number, inG: number, outG: number): number {
  return (spacePerKg * Math.max(inG, outG)) / 1000;
}

/** A temperature, or the nearest a unit reaches, °C. */
export function withinRange(setC: number, lowestC: number, highestC: number): number {
  return Math.min(Math.max(setC, lowestC), highestC);
}

/** Minutes between two moments. */
export function minutesBetween(later: number, earlier: number): number {
  return later - earlier;
}

/** Sum. */
export function totalMinutes(...minutes: number[]): number {
  let sum = 0;
  for (const m of minutes) sum += m;
  return sum;
}

/**
 * A number that stands for a list of numbers, so that a trace can say from which problem a plan came: FNV-1a
 * over the doubles' 64 bits, kept to 52 bits so that it is a whole double.
 */
export function fingerprint(...numbers: number[]): number {
  return fingerprintOf(numbers);
}

/** As `fingerprint`, for lists too long to be passed as arguments. */
export function fingerprintOf(numbers: Iterable<number>): number {
  const view = new DataView(new ArrayBuffer(8));
  let low = 0x811c9dc5;
  let high = 0x01000193;
  for (const n of numbers) {
    view.setFloat64(0, n);
    for (const word of [view.getUint32(0), view.getUint32(4)]) {
      low = Math.imul(low ^ word, 0x01000193) >>> 0;
      low = (low ^ (low >>> 15)) >>> 0;
      high = Math.imul(high ^ word ^ low, 0x85ebca6b) >>> 0;
      high = (high ^ (high >>> 13)) >>> 0;
    }
  }
  return (high & 0xfffff) * 0x100000000 + low;
}

/** As much thaws in cold water in an hour, g: "about a pound" (FSIS, "The Big Thaw"; from memory). */
export const THAWED_IN_WATER_G = 500;
/** Heaviest piece that a day in the cold room thaws, g: 24 h for each 4 to 5 lb (same leaf, from memory). */
export const THAWED_A_DAY_G = 2000;

/** Minutes of thawing: an hour in cold water for little, else whole days at 5 °C or below by the heaviest piece. */
export function thawMinutes(grams: number, pieceG: number): number {
  if (grams <= THAWED_IN_WATER_G) return 60;
  return 1440 * Math.max(1, wholeRoom(pieceG / THAWED_A_DAY_G));
}

/** Positions of a store that so many grams take. */
export function positionsTaken(grams: number, gPerPosition: number): number {
  return grams / gPerPosition;
}

/** Whole pieces of smallware: what is written × how often, rounded up, one at least. */
export function pulledWhole(written: number, times: number): number {
  return Math.max(1, Math.ceil(written * times - 1e-9));
}

/** Minutes of hands at work in an hour beyond a share of those there. */
export function beyondShare(workedMin: number, thereMin: number, share: number): number {
  return Math.max(0, workedMin - share * thereMin);
}

/**
 * The most in use, or at work, at one time.
 * @param uses count, from and until of each in turn; one that begins when another ends takes its place
 */
export function mostInUse(...uses: readonly number[]): number {
  const steps: [at: number, by: number][] = [];
  for (let i = 0; i + 2 < uses.length; i += 3) {
    const [count, from, until] = [uses[i]!, uses[i + 1]!, uses[i + 2]!];
    if (until > from) steps.push([from, count], [until, -count]);
  }
  steps.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  let [now, most] = [0, 0];
  for (const [, by] of steps) {
    now += by;
    most = Math.max(most, now);
  }
  return most;
}
