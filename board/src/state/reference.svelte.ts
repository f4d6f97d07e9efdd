import type { Point } from "../wire/types.ts";
import { words } from "../words.ts";
import type { Box } from "./camera.svelte.ts";
import { cornerOf, CORNERS, sized, turnedTo, type Lying, type PictureGrip } from "./laid-picture.ts";
import { drop, keep, kept } from "./shelf.ts";

export interface Laying extends Lying {
  opacity: number;
  under: boolean;
}

interface Kept extends Laying {
  picture: Blob;
}

const LARGEST = 40_000_000; // bytes
const TYPES = ["image/png", "image/jpeg", "image/webp", "image/gif"];
const BESIDE = 40; // mm

/** A picture to look at beside or under the pieces. It is kept in this browser, one for each design, and sent nowhere. */
class Reference {
  url = $state("");
  /** Height of the picture to its width. */
  shape = $state(1);
  lies = $state<Laying>({ x: 0, y: 0, width: 300, turn: 0, opacity: 0.6, under: false });
  fault = $state("");
  #design = "";
  #picture: Blob | null = null;

  async open(design: string): Promise<void> {
    if (design === this.#design) return;
    this.#design = design;
    this.#show(null);
    try {
      const found = await kept<Kept>(design);
      if (!found || design !== this.#design) return;
      const { picture, ...lies } = found;
      await this.#load(picture, () => lies);
    } catch {
      // A browser that keeps nothing has nothing kept.
    }
  }

  /** Lay a file to the right of all pieces, as high as they are. */
  async take(file: File, box: Box | null): Promise<void> {
    this.fault = "";
    if (!TYPES.includes(file.type)) {
      this.fault = words.picture.wrongType;
      return;
    }
    if (file.size > LARGEST) {
      this.fault = words.picture.tooLarge;
      return;
    }
    const [, bottom, right, top] = box ?? [0, 0, 0, 400];
    const beside = (shape: number): Laying => {
      const width = Math.max(50, (top - bottom) / shape);
      return { x: right + BESIDE + width / 2, y: (bottom + top) / 2, width, turn: 0, opacity: 1, under: false };
    };
    if (await this.#load(file, beside)) await this.keep();
    else this.fault = words.picture.unreadable;
  }

  lay(change: Partial<Laying>): void {
    this.lies = { ...this.lies, ...change };
  }

  /** One of its grips is drawn to a place of the paper. */
  hold(grip: PictureGrip, to: Point, free: boolean): void {
    this.lay(grip === "turn" ? turnedTo(this.lies, to, free) : sized(this.lies, this.shape, grip, to));
  }

  async keep(): Promise<void> {
    if (!this.#picture) return;
    try {
      await keep(this.#design, { ...$state.snapshot(this.lies), picture: this.#picture } satisfies Kept);
    } catch {
      this.fault = words.picture.notKept;
    }
  }

  async remove(): Promise<void> {
    const design = this.#design;
    this.fault = "";
    // It is out of sight when it is gone, and no page that is opened right after shows it again.
    await drop(design).catch(() => undefined);
    if (design === this.#design) this.#show(null);
  }

  /** Whether a place of the paper is on the picture. */
  covers([x, y]: Point): boolean {
    if (!this.url) return false;
    const angle = (-this.lies.turn * Math.PI) / 180;
    const [dx, dy] = [x - this.lies.x, y - this.lies.y];
    const [u, v] = [dx * Math.cos(angle) - dy * Math.sin(angle), dx * Math.sin(angle) + dy * Math.cos(angle)];
    return Math.abs(u) <= this.lies.width / 2 && Math.abs(v) <= (this.lies.width * this.shape) / 2;
  }

  get box(): Box | null {
    if (!this.url) return null;
    const corners = CORNERS.map((corner) => cornerOf(this.lies, this.shape, corner));
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  }

  /** Whether it is a picture; `lying` says where one of that shape lies. */
  async #load(picture: Blob, lying: (shape: number) => Laying): Promise<boolean> {
    const design = this.#design;
    const url = URL.createObjectURL(picture);
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
    } catch {
      URL.revokeObjectURL(url);
      return false;
    }
    if (design !== this.#design) {
      URL.revokeObjectURL(url);
      return true;
    }
    const shape = image.naturalHeight / image.naturalWidth;
    this.lies = lying(shape);
    this.#show(picture, url, shape);
    return true;
  }

  #show(picture: Blob | null, url = "", shape = 1): void {
    if (this.url) URL.revokeObjectURL(this.url);
    this.#picture = picture;
    this.url = url;
    this.shape = shape;
  }
}

export const reference = new Reference();
