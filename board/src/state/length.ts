/** Lengths as people read and write them. Inside everything is mm. */

export type Unit = "cm" | "in";

export const MM: Record<Unit, number> = { cm: 10, in: 25.4 };

const SIXTEENTHS = 16;
const MINUS = "−";

/** `12.5 cm`, `4 3/8 in`: to a tenth of a mm, or to a sixteenth of an inch. */
export function lengthText(mm: number, unit: Unit): string {
  return `${amountText(mm, unit)} ${unit}`;
}

/** A small difference, which sixteenths would swallow: `0.04 cm`, `0.016 in`. */
export const fineText = (mm: number, unit: Unit): string => `${(mm / MM[unit]).toFixed(unit === "cm" ? 2 : 3)} ${unit}`;

/** The same without its unit, as it stands in a field that names the unit. */
export function amountText(mm: number, unit: Unit): string {
  const sign = mm < 0 ? MINUS : "";
  const size = Math.abs(mm);
  if (unit === "cm") {
    const text = String(Math.round(size * 10) / 100);
    return text === "0" ? "0" : sign + text;
  }
  const parts = Math.round((size / MM.in) * SIXTEENTHS);
  if (parts === 0) return "0";
  const whole = Math.floor(parts / SIXTEENTHS);
  let [top, bottom] = [parts % SIXTEENTHS, SIXTEENTHS];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const fraction = top > 0 ? `${top}/${bottom}` : "";
  return sign + [whole > 0 ? String(whole) : "", fraction].filter(Boolean).join(" ");
}

/** As it stands in a column or in running words, where less is more: to the mm, always with its tenth; in inches as ever. */
export function roundText(mm: number, unit: Unit): string {
  if (unit === "in") return amountText(mm, unit);
  const size = (Math.abs(mm) / 10).toFixed(1);
  return (mm < 0 && size !== "0.0" ? MINUS : "") + size;
}

// What the program itself takes (body/units.py): a comma is a decimal sign, and three digits after it could as well be
// thousands; fractions are halves to sixteenths.
const DECIMAL = String.raw`([0-9]{1,6}(?:\.[0-9]{1,6}|,[0-9]{1,2})?)`;
const FRACTION = String.raw`(1/2|[1-3]/4|[1-7]/8|(?:[1-9]|1[0-5])/16|[½¼¾⅛⅜⅝⅞])`;
const NAMED = String.raw`(mm|cm|in(?:ch(?:es)?)?|["″”])?`;
const WRITTEN = new RegExp(String.raw`^([-−+]?)\s*(?:(?:([0-9]{1,4})(?:\s+|-|(?=[½¼¾⅛⅜⅝⅞])))?${FRACTION}|${DECIMAL})\s*${NAMED}$`, "i");
const ANGLE = new RegExp(String.raw`^${DECIMAL}\s*(?:°|deg(?:rees)?)?$`, "i");
const LONGEST = 40;

/** What a person wrote, in mm; null where it is not a length. A number without a unit is in `unit`. */
export function parseLength(text: string, unit: Unit | "mm"): number | null {
  const found = text.length <= LONGEST ? WRITTEN.exec(text.trim()) : null;
  if (!found) return null;
  const [, sign, whole, fraction, decimal, named] = found;
  const amount = decimal ? plainNumber(decimal) : Number(whole ?? 0) + share(fraction!);
  const own = named?.toLowerCase() ?? unit;
  const size = amount * (own === "mm" ? 1 : own === "cm" ? MM.cm : MM.in);
  return sign === "-" || sign === MINUS ? -size : size;
}

/** What a person wrote, in degrees; null where it is not an angle. */
export function parseAngle(text: string): number | null {
  const found = text.length <= LONGEST ? ANGLE.exec(text.trim()) : null;
  return found ? plainNumber(found[1]!) : null;
}

const plainNumber = (decimal: string): number => Number(decimal.replace(",", "."));

/** `3/4` or `¾` as a number: the sign falls apart into its figures and a stroke of its own. */
function share(fraction: string): number {
  const [top, bottom] = fraction.normalize("NFKD").split(/[/⁄]/);
  return Number(top) / Number(bottom);
}
