import { readBytes } from "./io.ts";

/** The bytes of a file ("-" is standard input), or in words why there are none. */
export function bytesOf(path: string): Uint8Array | string {
  try {
    return readBytes(path === "-" ? 0 : path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    return code === "ENOENT" ? `there is no file ${path}` : `${path} cannot be read (${code})`;
  }
}
