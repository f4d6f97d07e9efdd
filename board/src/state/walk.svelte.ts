const WHOLE_MS = 6000;

/** The seam that is walked, how far, and whether it is played; it lasts while the page looks at other views. */
class Walk {
  seam = $state<string | null>(null);
  /** Of the seam's length, 0 … 1. */
  share = $state(0);
  playing = $state(false);
  #frame = 0;

  take(seam: string): void {
    if (seam === this.seam) return;
    this.stop();
    this.seam = seam;
    this.share = 0;
  }

  to(share: number): void {
    this.stop();
    this.share = share;
  }

  play(): void {
    if (this.share >= 1) this.share = 0;
    this.playing = true;
    let last: number | null = null;
    const on = (now: number) => {
      this.share = Math.min(1, this.share + (last === null ? 0 : now - last) / WHOLE_MS);
      last = now;
      if (this.share >= 1) this.stop();
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
