import { camera } from "../state/camera.svelte.ts";
import type { Point } from "../wire/types.ts";
import type { Touch, Under } from "./tool.ts";

/** How far a key moves the paper, pixels. */
const PAN = 40;
/** How much closer a key or button brings it. */
export const CLOSER = 1.25;

/** How paper that is looked at can be moved. */
export interface Paper {
  pan(dx: number, dy: number): void;
  zoom(factor: number, at?: Point): void;
  fit(): void;
}

/** A pointer as the tools see it; `under` tells what lies at a place of the drawing, in pixels. */
export function touchOf(event: PointerEvent, drawing: Element, under: (at: Point) => Under): Touch {
  const frame = drawing.getBoundingClientRect();
  const at: Point = [event.clientX - frame.left, event.clientY - frame.top];
  return {
    pointer: event.pointerId,
    kind: event.pointerType === "touch" || event.pointerType === "pen" ? event.pointerType : "mouse",
    at,
    under: under(at),
    shift: event.shiftKey,
    alt: event.altKey,
    second: event.button > 0,
  };
}

/** To attach where the wheel comes closer. It must be told that it may not scroll the page, which an attribute can't. */
export function wheel(zoom: (factor: number, at: Point) => void): (node: Element) => () => void {
  return (node) => {
    const turn = (event: WheelEvent) => {
      event.preventDefault();
      const frame = node.getBoundingClientRect();
      const size = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 20 : 1;
      zoom(Math.exp(-event.deltaY * size * 0.0016), [event.clientX - frame.left, event.clientY - frame.top]);
    };
    node.addEventListener("wheel", turn as EventListener, { passive: false });
    return () => node.removeEventListener("wheel", turn as EventListener);
  };
}

/** To attach to the drawing, so that the camera knows its size. */
export function sized(changed: () => void): (node: Element) => () => void {
  return (node) => {
    const watch = new ResizeObserver(() => {
      camera.width = node.clientWidth;
      camera.height = node.clientHeight;
      changed();
    });
    watch.observe(node);
    return () => watch.disconnect();
  };
}

/** To attach to what lies over the drawing and may become higher. */
export function grown(changed: () => void): (node: HTMLElement) => () => void {
  return (node) => {
    let high = node.offsetHeight;
    const watch = new ResizeObserver(() => {
      if (node.offsetHeight === high) return;
      high = node.offsetHeight;
      changed();
    });
    watch.observe(node);
    return () => watch.disconnect();
  };
}

/** Move the paper with a key, where it is one of those that do. */
export function movedByKey(event: KeyboardEvent, paper: Paper): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const does: Record<string, () => void> = {
    ArrowLeft: () => paper.pan(PAN, 0),
    ArrowRight: () => paper.pan(-PAN, 0),
    ArrowUp: () => paper.pan(0, PAN),
    ArrowDown: () => paper.pan(0, -PAN),
    "+": () => paper.zoom(CLOSER),
    "=": () => paper.zoom(CLOSER),
    "-": () => paper.zoom(1 / CLOSER),
    "0": () => paper.fit(),
  };
  const act = does[event.key];
  if (!act) return;
  event.preventDefault();
  act();
}
