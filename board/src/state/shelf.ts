/** A place in the browser itself where things are kept between visits. They go to no server. */

const NAME = "panelwright-board";
const STORE = "pictures";

function opened(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error ?? new Error());
  });
}

async function asked<Result>(mode: IDBTransactionMode, what: (store: IDBObjectStore) => IDBRequest<Result>): Promise<Result> {
  const database = await opened();
  try {
    return await new Promise((done, failed) => {
      const work = database.transaction(STORE, mode);
      const request = what(work.objectStore(STORE));
      // Done only when it lies on the disk: a request that succeeded may still be undone with the page.
      work.oncomplete = () => done(request.result);
      work.onerror = work.onabort = () => failed(work.error ?? new Error());
    });
  } finally {
    database.close();
  }
}

export const kept = <Thing>(name: string): Promise<Thing | undefined> => asked("readonly", (store) => store.get(name) as IDBRequest<Thing | undefined>);
export const keep = (name: string, thing: unknown): Promise<unknown> => asked("readwrite", (store) => store.put(thing, name));
export const drop = (name: string): Promise<unknown> => asked("readwrite", (store) => store.delete(name));
export const names = async (): Promise<string[]> => (await asked("readonly", (store) => store.getAllKeys())).map(String);
