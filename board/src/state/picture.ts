/**
 * Stops waiting for a picture that is taken off the page: a browser speaks to one server over six connections, and
 * pictures that nobody sees any more must not hold them up.
 */
export function dropped(picture: HTMLImageElement): () => void {
  return () => picture.removeAttribute("src");
}
