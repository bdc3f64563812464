/** Evaporation from a wet surface, W/m², as a function of its temperature, and its slope. */
export type Evaporation = {
  /** Heat taken by evaporation from a surface at `celsius` that has lost `dried` kg/m² already, W/m². */
  flux: (celsius: number, dried: number) => number;
  /** How that flux rises with the surface temperature, W/(m² K), never negative. */
  slope: (celsius: number, dried: number) => number;
  /** kg evaporated by one joule. */
  kgPerJ: number;
};

/** What one face of a piece meets during a stage. */
export type Surroundings = {
  /** W/(m² K); 0 is an insulated face. */
  coefficient: number;
  /** Temperature of the medium in °C, `seconds` after the stage begins. */
  ambientC: (seconds: number) => number;
  evaporation?: Evaporation;
};

/**
 * A linear face, q into the food = coefficient (ambientC - surface), that stands for a curved one near the
 * surface temperature `surfaceC` it was found at.
 */
export type LinearFace = { coefficient: number; ambientC: number; surfaceC: number };

/**
 * The linear face that gives the heat flow of `s` at the surface temperature it would now have, with the right
 * slope: Newton on the surface's own heat balance. `insideC` is the temperature `resistance` (m² K/W) below;
 * `guessC` is where to begin, such as the surface of the line before.
 */
export function linearFace(
  s: Surroundings,
  seconds: number,
  insideC: number,
  resistance: number,
  dried: number,
  guessC: number = insideC,
): LinearFace {
  const ambientC = s.ambientC(seconds);
  if (!s.evaporation) return { coefficient: s.coefficient, ambientC, surfaceC: insideC };
  const { flux, slope: slopeOf } = s.evaporation;
  const h = s.coefficient;
  let surface = guessC;
  let taken = 0;
  let slope = 0;
  for (let i = 0; i < 30; i++) {
    taken = flux(surface, dried);
    slope = slopeOf(surface, dried);
    const balance = (insideC - surface) / resistance + h * (ambientC - surface) - taken;
    const step = balance / (1 / resistance + h + slope);
    if (Math.abs(step) < 1e-5) break;
    surface += Math.max(-40, Math.min(40, step));
  }
  const linearC = (h * ambientC - taken + slope * surface) / (h + slope);
  return { coefficient: h + slope, ambientC: linearC, surfaceC: surface };
}

/** Temperature of the surface itself in °C, from the cell `resistance` below it. */
export function surfaceTemperature(face: LinearFace, insideC: number, resistance: number): number {
  const inner = 1 / resistance;
  return (inner * insideC + face.coefficient * face.ambientC) / (inner + face.coefficient);
}
