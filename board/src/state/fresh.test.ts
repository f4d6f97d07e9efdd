import assert from "node:assert/strict";
import { test } from "node:test";
import { Refusal } from "../wire/ask.ts";
import { savedAsNew } from "./fresh.ts";
import { freeRef } from "./measuring.ts";

/** A server on which others take one more reference each time that somebody saves, `quicker` times. */
function server(quicker: number) {
  const held = new Map([["w-01", "theirs"]]);
  return {
    held,
    refs: () => [...held.keys()],
    async save(ref: string): Promise<void> {
      if (quicker-- > 0) held.set(ref, "theirs");
      if (held.has(ref)) throw new Refusal("is there already", "", 409);
      held.set(ref, "mine");
    },
  };
}

/** A page that knows what it saw when it last looked. */
function page(other: ReturnType<typeof server>) {
  let seen = other.refs();
  return savedAsNew(() => freeRef(seen), other.save, async () => void (seen = other.refs()));
}

test("what is new is saved under the first free reference", async () => {
  const other = server(0);
  assert.equal(await page(other), "w-02");
  assert.equal(other.held.get("w-02"), "mine");
});

test("where another page is quicker the next one is taken, and theirs stays", async () => {
  const other = server(2);
  assert.equal(await page(other), "w-04");
  assert.deepEqual([...other.held.values()], ["theirs", "theirs", "theirs", "mine"]);
});

test("a page that never wins is told so, and so is any other fault, at once", async () => {
  await assert.rejects(page(server(99)), { status: 409 });
  let asked = 0;
  const broken = () => ((asked += 1), Promise.reject(new Refusal("no", "waist_girth", 400)));
  await assert.rejects(savedAsNew(() => "w-02", broken, async () => {}), { status: 400 });
  assert.equal(asked, 1);
});
