import { Link } from "@tanstack/react-router";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";

/** Ways into the stores: suppliers with their price lists, and ingredients to add. */
export function StoresDoors() {
  const { book } = useBook();
  const { say } = useWords();
  return (
    <nav className="row wrap stores-doors" aria-label={say("supplier.title")}>
      <Link to="/stores/add" className="button">
        {say("add.open")}
      </Link>
      {book.suppliers.map((supplier) => (
        <Link
          key={supplier.id}
          to="/stores/supplier/$id"
          params={{ id: supplier.id }}
          className="button quiet-button"
        >
          {supplier.name}
        </Link>
      ))}
    </nav>
  );
}
