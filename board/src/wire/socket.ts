import type { Changed, HeldLine, Refused, Said, ToldPattern } from "./types.ts";

export type Answer = ToldPattern | Refused;

export interface Drag {
  step: string;
  handle: string;
  piece: string;
  to: [number, number];
  free?: boolean;
}

export interface Listener {
  /** The connection is there (again): what was open must be opened. */
  connected(): void;
  lost(): void;
  changed(kind: Changed["kind"]): void;
  /** The answer to a drag, and to its rest; drags that were passed over have none. */
  dragged(answer: Answer): void;
  /** What comes ahead of the answer to a drag. */
  led(line: HeldLine): void;
}

const FIRST_WAIT = 250;
const LONGEST_WAIT = 4000;
/** A hand that has held still for so long is told all there is to tell, ms. */
const REST = 150;

/**
 * The socket of the board. It connects again by itself after a loss; what was asked before the loss is refused to its
 * asker, and a drag that was going on is forgotten, never sent twice.
 */
export class BoardSocket {
  #socket: WebSocket | null = null;
  #listener: Listener;
  #next = 1;
  #asked = new Map<number, (answer: Answer | null) => void>();
  #dragInAir: number | null = null;
  #dragWaiting: Drag | null = null;
  #restInAir: number | null = null;
  #resting: ReturnType<typeof setTimeout> | undefined;
  #wait = FIRST_WAIT;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #closed = false;

  constructor(listener: Listener) {
    this.#listener = listener;
  }

  connect(): void {
    this.#closed = false;
    clearTimeout(this.#timer);
    const address = new URL("api/board", location.href);
    address.protocol = address.protocol === "https:" ? "wss:" : "ws:";
    address.hash = "";
    const socket = new WebSocket(address);
    this.#socket = socket;
    socket.onopen = () => {
      this.#wait = FIRST_WAIT;
      this.#listener.connected();
    };
    socket.onmessage = (event) => this.#hear(JSON.parse(event.data as string) as Said);
    socket.onclose = () => this.#lose(socket);
  }

  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#socket?.close();
  }

  /** Ask for something; null where the connection was lost before the answer. */
  ask(what: string, more: Record<string, unknown> = {}): Promise<Answer | null> {
    return new Promise((answered) => {
      const id = this.#send(what, more);
      if (id === null) answered(null);
      else this.#asked.set(id, answered);
    });
  }

  /** Tell where a handle is now. One drag is in the air at a time; of those that wait only the newest is kept. */
  drag(drag: Drag): void {
    this.#stir();
    if (this.#dragInAir !== null) this.#dragWaiting = drag;
    else this.#dragInAir = this.#send("drag", { ...drag });
  }

  /** No more of this drag: answers on their way are not listened to. `told`: what waits is still told. */
  endDrag(told: boolean): void {
    if (told && this.#dragWaiting) this.#send("drag", { ...this.#dragWaiting });
    this.#dragWaiting = this.#dragInAir = null;
    this.#stir();
  }

  /** The hand holds still: if it goes on doing so, ask for all there is to tell. */
  rest(): void {
    this.#stir();
    this.#resting = setTimeout(() => {
      this.#restInAir = this.#send("rest", {});
    }, REST);
  }

  #stir(): void {
    clearTimeout(this.#resting);
    this.#restInAir = null;
  }

  #send(what: string, more: Record<string, unknown>): number | null {
    if (this.#socket?.readyState !== WebSocket.OPEN) return null;
    const id = this.#next++;
    this.#socket.send(JSON.stringify({ do: what, id, ...more }));
    return id;
  }

  #hear(said: Said): void {
    if (said.say === "changed") return this.#listener.changed(said.kind);
    const id = said.id ?? -1;
    if (said.say === "line") return id === this.#dragInAir ? this.#listener.led(said) : undefined;
    if (id === this.#dragInAir) {
      const next = this.#dragWaiting;
      this.#dragWaiting = null;
      // First sent, then drawn: the server reckons while the page draws.
      this.#dragInAir = next && this.#send("drag", { ...next });
      if (!next && said.say === "pattern") this.rest();
      return this.#listener.dragged(said);
    }
    if (id === this.#restInAir) {
      this.#restInAir = null;
      // What cannot be finished so is told when it is let go.
      return said.say === "pattern" ? this.#listener.dragged(said) : undefined;
    }
    const answered = this.#asked.get(id);
    this.#asked.delete(id);
    answered?.(said);
  }

  #lose(socket: WebSocket): void {
    if (socket !== this.#socket) return;
    this.#socket = null;
    this.endDrag(false);
    const waiting = [...this.#asked.values()];
    this.#asked.clear();
    for (const answered of waiting) answered(null);
    if (this.#closed) return;
    this.#listener.lost();
    this.#timer = setTimeout(() => this.connect(), this.#wait);
    this.#wait = Math.min(2 * this.#wait, LONGEST_WAIT);
  }
}
