/** A name made into an id: small letters, digits, single hyphens; "" when nothing of it can be. */
export function idOf(name: string): string {
  return name
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
}
