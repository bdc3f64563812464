/** Every number below a value with its JSON Pointer (RFC 6901), in the order of its keys. */
export function* numbersBelow(value: unknown, path: string): Generator<[string, number]> {
  if (typeof value === "number") yield [path, value];
  else if (value !== null && typeof value === "object")
    for (const [key, inner] of Object.entries(value))
      yield* numbersBelow(inner, `${path}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`);
}
