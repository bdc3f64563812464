import { Link } from "@tanstack/react-router";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";

/** Ways into the stores: what is on hand, ingredients to add, prices to read, and who sells. */
export function StoresDoors() {
  const { book } = useBook();
  const { say } = useWords();
  return (
    <div className="stores-doors">
      <p className="row wrap">
        <Link to="/stores/stock" className="button">
          {say("stock.link")}
        </Link>
        <Link to="/stores/add" className="button quiet-button">
          {say("add.open")}
        </Link>
        <Link to="/stores/list" className="button quiet-button">
          {say("supplier.read")}
        </Link>
      </p>
      <nav className="suppliers" aria-label={say("supplier.title")}>
        <span className="quiet small" aria-hidden="true">
          {say("supplier.title")}
        </span>
        {book.suppliers.map((supplier) => (
          <Link
            key={supplier.id}
            to="/stores/supplier/$id"
            params={{ id: supplier.id }}
            className="link-button"
          >
            {supplier.name}
          </Link>
        ))}
        <Link to="/stores/new-supplier" className="link-button">
          <span aria-hidden="true">+ </span>
          {say("supplier.new")}
        </Link>
      </nav>
    </div>
  );
}
