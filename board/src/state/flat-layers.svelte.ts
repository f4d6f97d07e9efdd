import type { Layer } from "../wire/types.ts";

export const LAYERS: Layer[] = ["outer", "facing", "lining", "interfacing"];

/** Which layers are shown on Flat: ticks stay while another view is looked at, and go with the design. */
class FlatLayers {
  shown = $state<Record<Layer, boolean>>(outerAlone());
  #design = "";

  /** The design that lies on the page now. */
  of(design: string): void {
    if (design === this.#design) return;
    this.#design = design;
    this.shown = outerAlone();
  }

  tick(layer: Layer, on: boolean): void {
    this.shown[layer] = on;
  }

  show(layers: readonly Layer[]): void {
    for (const layer of layers) this.shown[layer] = true;
  }
}

function outerAlone(): Record<Layer, boolean> {
  return { outer: true, facing: false, lining: false, interfacing: false };
}

export const flatLayers = new FlatLayers();
