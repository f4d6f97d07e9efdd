const WHOLE_MS = 6000;

/** The seam that is walked, how far, and whether it is played; it lasts while the page looks at other views. */
class Walk {
  seam = $state<string | null>(null);
  /** Of the seam's length, 0 … 1; null while nobody has walked it: it then lies where it is understood best. */
  share = $state<number | null>(null);
  playing = $state(false);
  #frame = 0;

  take(seam: string): void {
    if (seam === this.seam) return;
    this.stop();
    this.seam = seam;
    this.share = null;
  }

  to(share: number): void {
    this.stop();
    this.share = share;
  }

  play(): void {
    let at = this.share === null || this.share >= 1 ? 0 : this.share;
    this.share = at;
    this.playing = true;
    let last: number | null = null;
    const on = (now: number) => {
      at = Math.min(1, at + (last === null ? 0 : now - last) / WHOLE_MS);
      this.share = at;
      last = now;
      if (at >= 1) this.stop();
      else this.#frame = requestAnimationFrame(on);
    };
    this.#frame = requestAnimationFrame(on);
  }

  stop(): void {
    cancelAnimationFrame(this.#frame);
    this.playing = false;
  }
}

export const walk = new Walk();
