import { DatabaseSync, type SQLInputValue } from "node:sqlite";
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from "kysely";

/**
 * Kysely over Node's own SQLite. One connection, used by one caller at a time; write-ahead log, every commit
 * forced to the disk (synchronous = FULL).
 */
export function sqliteDialect(file: string): Dialect {
  return {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new SqliteDriver(file),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  };
}

const SQLITE_BUSY = 5;
/** With 20 ms in SQLite and 10 ms outside it, about six seconds. */
const MOST_TRIES = 200;

class SqliteDriver implements Driver {
  readonly #file: string;
  #db: DatabaseSync | undefined;
  /** Resolves when the connection is free: transactions must not run into each other. */
  #free: Promise<void> = Promise.resolve();
  #release: (() => void) | undefined;

  constructor(file: string) {
    this.#file = file;
  }

  async init(): Promise<void> {
    const db = new DatabaseSync(this.#file);
    db.exec("pragma busy_timeout = 20");
    db.exec("pragma journal_mode = wal");
    db.exec("pragma synchronous = full");
    db.exec("pragma foreign_keys = on");
    this.#db = db;
  }

  async acquireConnection(): Promise<DatabaseConnection> {
    const before = this.#free;
    let release!: () => void;
    this.#free = new Promise((resolve) => {
      release = resolve;
    });
    await before;
    this.#release = release;
    return new SqliteConnection(this.#db!);
  }

  async releaseConnection(): Promise<void> {
    this.#release?.();
  }

  // "immediate" takes the write lock at once: a transaction that reads, then writes, cannot be overtaken between.
  // While another holds the lock we wait outside SQLite, whose own waiting would stop this whole process.
  async beginTransaction(connection: DatabaseConnection): Promise<void> {
    for (let tries = 0; ; tries++) {
      try {
        await connection.executeQuery(CompiledQuery.raw("begin immediate"));
        return;
      } catch (error) {
        if ((error as { errcode?: number }).errcode !== SQLITE_BUSY || tries >= MOST_TRIES) throw error;
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
    }
  }

  async commitTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw("commit"));
  }

  async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    // On a full disk SQLite has rolled back by itself; a second time would hide why.
    if (this.#db?.isTransaction) await connection.executeQuery(CompiledQuery.raw("rollback"));
  }

  async destroy(): Promise<void> {
    this.#db?.close();
  }
}

class SqliteConnection implements DatabaseConnection {
  readonly #db: DatabaseSync;

  constructor(db: DatabaseSync) {
    this.#db = db;
  }

  async executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    const statement = this.#db.prepare(query.sql);
    const parameters = query.parameters as SQLInputValue[];
    if (statement.columns().length > 0) return { rows: statement.all(...parameters) as R[] };
    const { changes } = statement.run(...parameters);
    return { rows: [], numAffectedRows: BigInt(changes) };
  }

  // biome-ignore lint/correctness/useYield: Kysely's interface asks for it; nothing here streams.
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    throw new Error("the embedded database does not stream");
  }
}
