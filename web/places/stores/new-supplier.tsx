import { Link, useNavigate } from "@tanstack/react-router";
import { useState } from "react";
import { useBook } from "../../app/hands.tsx";
import { useMaybeService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import type { Kept } from "../../book/api.ts";
import type { OpenedFile } from "../../compute/intake-protocol.ts";
import { FileDrop } from "../../parts/file-drop.tsx";
import { Pick } from "../../parts/pick.tsx";
import { currencyOf } from "./currency.ts";
import { useKeepTogether } from "./keep-together.ts";
import { KeptNote } from "./kept-note.tsx";
import { LIST_FILES, PriceListReader } from "./list/reader.tsx";
import { documentsOf, type SupplierDocuments } from "./supplier-draft.ts";
import { SupplierForm } from "./supplier-form.tsx";

const NEW = "new";

/** Begins a supplier: its days and terms, then its sheet opens. */
export function NewSupplierPlace() {
  const { say } = useWords();
  const keepTogether = useKeepTogether();
  const navigate = useNavigate();
  const [said, setSaid] = useState<Kept>();
  const keep = async ({ supplier, kitchens }: SupplierDocuments) => {
    const kept = await keepTogether(documentsOf({ supplier, kitchens }));
    setSaid(kept);
    if (kept.outcome !== "refused")
      void navigate({ to: "/stores/supplier/$id", params: { id: supplier.id } });
  };
  return (
    <div className="page">
      <Back />
      <h1>{say("supplier.new")}</h1>
      <p className="quiet">{say("supplier.new.what")}</p>
      <SupplierForm keep={say("supplier.keep")} onKeep={(read) => void keep(read)} />
      <KeptNote said={said} />
    </div>
  );
}

/** Reads a price list of which nobody has said yet whose it is: of a supplier that is known, or of a new one. */
export function PriceListPlace() {
  const { say } = useWords();
  const { book } = useBook();
  const navigate = useNavigate();
  const kitchen = useMaybeService()?.kitchen;
  const [file, setFile] = useState<OpenedFile>();
  const [whose, setWhose] = useState<string>();
  const [begun, setBegun] = useState<SupplierDocuments>();
  const supplier = begun?.supplier ?? book.suppliers.find((one) => one.id === whose);
  if (!file)
    return (
      <div className="page">
        <Back />
        <h1>{say("supplier.read")}</h1>
        <FileDrop label={say("list.open")} accept={LIST_FILES} onOpen={([opened]) => setFile(opened)} />
      </div>
    );
  return (
    <div className="page">
      <Back />
      <h1>{supplier?.name ?? say("supplier.read")}</h1>
      {supplier ? (
        <PriceListReader
          supplier={supplier}
          currency={currencyOf(book.kitchens, supplier, kitchen)}
          opened={file}
          beside={begun ? documentsOf(begun).filter(({ kind }) => kind !== "suppliers") : []}
          onDone={() => void navigate({ to: "/stores/supplier/$id", params: { id: supplier.id } })}
          onLeave={() => void navigate({ to: "/stores" })}
        />
      ) : (
        <>
          <p>{say("supplier.whose", { name: file.name })}</p>
          <Pick
            label={say("supplier.whose.label")}
            hideLabel
            value={whose ?? ""}
            options={[
              ...(whose === undefined ? [["", say("list.tie.none")] as const] : []),
              ...book.suppliers.map((one) => [one.id, one.name] as const),
              [NEW, say("supplier.new")],
            ]}
            onChange={setWhose}
          />
          {whose === NEW && <SupplierForm keep={say("supplier.go")} onKeep={setBegun} />}
        </>
      )}
    </div>
  );
}

function Back() {
  const { say } = useWords();
  return (
    <p>
      <Link to="/stores" className="link-button">
        {say("supplier.back")}
      </Link>
    </p>
  );
}
