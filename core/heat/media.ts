import { evaporation } from "./evaporation.ts";
import { type Medium, media } from "./media-data.ts";
import { type Note, plain, refuse } from "./problem.ts";
import type { Surroundings } from "./surroundings.ts";
import { boilingAtAltitudeC, pressurePa, saturationPa } from "./water.ts";

/** The place where it is cooked. Give either; altitude is read as a boiling point by the standard atmosphere. */
export type Place = { altitudeM?: number | undefined; boilingC?: number | undefined };
export type Air = { boilingC: number; pressurePa: number };

/** Boiling point and pressure of a place; a given boiling point wins over the altitude, sea level is the default. */
export function airOf(place: Place): Air {
  if (place.boilingC !== undefined)
    return { boilingC: place.boilingC, pressurePa: saturationPa(place.boilingC) };
  const altitudeM = place.altitudeM ?? 0;
  return { boilingC: boilingAtAltitudeC(altitudeM), pressurePa: pressurePa(altitudeM) };
}

/** The medium of a name, however it is spaced or capitalised; undefined when it is not known. */
export function mediumNamed(name: string): Medium | undefined {
  const id = name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, "-");
  return media.find((m) => m.id === id || m.also.includes(id));
}

export type Asked = {
  mediumC?: number | undefined;
  medium?: string | undefined;
  coefficient?: number | undefined;
};
export type Around = {
  mediumC: number;
  coefficient: number;
  medium?: Medium;
  /** Evaporation is counted: the medium's own coefficient is used and the outside can be wet. */
  dries: boolean;
};

/**
 * What a stage's words mean here: temperature and coefficient of what surrounds the piece.
 * A given coefficient is taken exactly as given, with no drying. Refuses an unknown medium, a medium without a
 * temperature, a temperature without a coefficient, and water above the boiling point of the place.
 */
export function around(asked: Asked, air: Air, wetOutside: boolean, path: string, notes: Note[]): Around {
  if (asked.medium === undefined) {
    if (asked.mediumC === undefined)
      refuse(path, "nothing says what surrounds the piece", "give mediumC with a coefficient, or a medium");
    if (asked.coefficient === undefined)
      refuse(
        `${path}/coefficient`,
        "a temperature alone does not say how quickly heat goes over",
        `give coefficient in W/(m² K), or name a medium: ${names()}`,
      );
    return { mediumC: asked.mediumC, coefficient: asked.coefficient, dries: false };
  }
  const medium = mediumNamed(asked.medium);
  if (!medium)
    refuse(`${path}/medium`, `the medium "${asked.medium}" is not known`, `use one of: ${names()}`);
  const by = medium.celsius;
  const mediumC =
    asked.mediumC ??
    (by.by === "boiling" ? air.boilingC - by.below : by.by === "usual" ? by.usual : undefined);
  if (mediumC === undefined)
    refuse(
      `${path}/mediumC`,
      `a ${medium.id} can be set to any temperature`,
      `give mediumC, ${by.by === "asked" ? `for example ${by.like}` : ""}`,
    );
  if (medium.watery && mediumC > air.boilingC + 0.3)
    refuse(
      `${path}/mediumC`,
      `water boils at ${plain(air.boilingC)} °C here: a ${medium.id} cannot be ${plain(mediumC)} °C`,
      `give at most ${plain(air.boilingC)} °C, or cook in an oven, in fat or under pressure`,
    );
  if (medium.watery && mediumC < -2)
    refuse(`${path}/mediumC`, "water below -2 °C is ice", "give at least -2 °C, or name a freezer");
  const coefficient = asked.coefficient ?? medium.coefficient;
  if (asked.coefficient === undefined)
    notes.push({
      code: "coefficient-assumed",
      text: `Coefficient of ${medium.id} taken as ${medium.coefficient} W/(m² K), range ${medium.range[0]} to ${medium.range[1]} (${medium.source.doc}${medium.source.kind === "memory" ? "; from memory" : ""}).`,
    });
  else if (asked.coefficient < medium.range[0] || asked.coefficient > medium.range[1])
    notes.push({
      code: "coefficient-unusual",
      text: `Coefficient ${plain(asked.coefficient)} W/(m² K) lies outside the range of a ${medium.id}, ${medium.range[0]} to ${medium.range[1]}.`,
    });
  const dries = medium.drying !== undefined && asked.coefficient === undefined && wetOutside;
  if (dries)
    notes.push({
      code: "surface-dries",
      text: `In the ${medium.id} the wet surface is cooled by evaporation until a crust has dried.`,
    });
  return { mediumC, coefficient, medium, dries };
}

/** The face that `around` describes, ready for the solver; `ambientC` may follow a recovering oven. */
export function surroundingsOf(a: Around, air: Air, ambientC?: (seconds: number) => number): Surroundings {
  const face: Surroundings = { coefficient: a.coefficient, ambientC: ambientC ?? (() => a.mediumC) };
  if (a.dries && a.medium?.drying)
    face.evaporation = evaporation(a.medium.drying, a.coefficient, air.pressurePa, air.boilingC);
  return face;
}

function names(): string {
  return media.map((m) => m.id).join(", ");
}
