import { words } from "../words.ts";
import type { Grey } from "./pencil-line.ts";
import { drop, keep, kept } from "./shelf.ts";

const LARGEST = 40_000_000; // bytes
const MOST_PIXELS = 60_000_000;
const TYPES = ["image/png", "image/jpeg", "image/webp", "image/gif"];
const ROWS = 512;

export const shelfName = (ref: string): string => `trace/${ref}`;

/** Forget the picture of a block that is deleted. */
export const forgetPicture = (ref: string): Promise<unknown> => drop(shelfName(ref)).catch(() => undefined);

/** The scan or photo that a block is traced over. It is kept in this browser, one for each block, and sent nowhere. */
class TracePicture {
  url = $state("");
  width = $state(0);
  height = $state(0);
  fault = $state("");
  /** Its shades, for finding pencil lines. */
  grey: Grey | null = null;
  #ref = "";

  async open(ref: string): Promise<void> {
    if (ref === this.#ref) return;
    this.close();
    this.#ref = ref;
    try {
      const found = await kept<Blob>(shelfName(ref));
      if (found && ref === this.#ref) await this.#load(found, null);
    } catch {
      // A browser that keeps nothing has nothing kept.
    }
  }

  close(): void {
    this.#ref = "";
    this.fault = "";
    this.#show("", 0, 0, null);
  }

  /** Show a file. `size`: what was traced already needs a picture of this size. Whether it is shown. */
  async take(file: File, size: { width: number; height: number } | null): Promise<boolean> {
    const ref = this.#ref;
    this.fault = "";
    const fault = !TYPES.includes(file.type) ? words.picture.wrongType : file.size > LARGEST ? words.picture.tooLarge : await this.#load(file, size);
    // Whoever has gone on to another block meanwhile gets no picture of this one there.
    if (ref !== this.#ref) return false;
    this.fault = fault;
    if (fault) return false;
    try {
      await keep(shelfName(ref), file);
    } catch {
      this.fault = words.picture.notKept;
    }
    return true;
  }

  /** Empty, or why it cannot be shown. */
  async #load(file: Blob, size: { width: number; height: number } | null): Promise<string> {
    const ref = this.#ref;
    const url = URL.createObjectURL(file);
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
      const [width, height] = [image.naturalWidth, image.naturalHeight];
      const fault = width * height > MOST_PIXELS ? words.trace.tooManyPixels : size && (size.width !== width || size.height !== height) ? words.trace.otherPicture : "";
      const grey = fault ? null : shades(image, width, height);
      if (!fault && ref === this.#ref) this.#show(url, width, height, grey);
      else URL.revokeObjectURL(url);
      return fault;
    } catch {
      URL.revokeObjectURL(url);
      return words.picture.unreadable;
    }
  }

  #show(url: string, width: number, height: number, grey: Grey | null): void {
    if (this.url) URL.revokeObjectURL(this.url);
    [this.url, this.width, this.height, this.grey] = [url, width, height, grey];
  }
}

/** Read strip by strip, so that a large scan is not held in memory twice. */
function shades(image: HTMLImageElement, width: number, height: number): Grey | null {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [width, Math.min(ROWS, height)];
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  if (!pen) return null;
  const shade = new Uint8Array(width * height);
  for (let top = 0; top < height; top += ROWS) {
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, width, ROWS);
    pen.drawImage(image, 0, -top);
    const rows = Math.min(ROWS, height - top);
    const { data } = pen.getImageData(0, 0, width, rows);
    for (let k = 0; k < width * rows; k++) shade[top * width + k] = 0.299 * data[4 * k]! + 0.587 * data[4 * k + 1]! + 0.114 * data[4 * k + 2]!;
  }
  return { width, height, shade };
}

export const tracePicture = new TracePicture();
