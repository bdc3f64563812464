import { type ReactNode, useState } from "react";
import { Button, DropZone, FileTrigger } from "react-aria-components";
import { useWords } from "../app/settings.tsx";
import type { OpenedFile } from "../compute/intake-protocol.ts";

/** Larger files are refused before they are read. */
const LARGEST = 64 * 1024 * 1024;

/** A place to open a file, by choosing it or dropping it. */
export function FileDrop({
  label,
  accept,
  several = false,
  onOpen,
  children,
}: {
  readonly label: string;
  readonly accept: readonly string[];
  readonly several?: boolean;
  readonly onOpen: (files: readonly OpenedFile[]) => void;
  readonly children?: ReactNode;
}) {
  const { say } = useWords();
  const [wrong, setWrong] = useState<string>();
  const open = async (files: readonly File[]) => {
    const large = files.find((file) => file.size > LARGEST);
    setWrong(large && say("file.large", { name: large.name, most: LARGEST / 1024 / 1024 }));
    if (large || files.length === 0) return;
    const read = await Promise.all(
      files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
    ).catch(() => undefined);
    if (read) onOpen(read);
    else setWrong(say("file.unreadable", { name: files[0]!.name }));
  };
  return (
    <DropZone
      className="file-drop"
      onDrop={async ({ items }) => {
        const files = await Promise.all(
          items.flatMap((item) => (item.kind === "file" ? [item.getFile()] : [])),
        );
        void open(several ? files : files.slice(0, 1));
      }}
    >
      <div className="row wrap">
        <FileTrigger
          acceptedFileTypes={accept}
          allowsMultiple={several}
          onSelect={(files) => void open([...(files ?? [])])}
        >
          <Button className="button">{label}</Button>
        </FileTrigger>
        <span className="quiet">{say("file.drop")}</span>
        {children}
      </div>
      {wrong && (
        <p className="wrong" role="alert">
          {wrong}
        </p>
      )}
    </DropZone>
  );
}
