/** Lengths as people read and write them. Inside everything is mm. */

export type Unit = "cm" | "in";

export const MM: Record<Unit, number> = { cm: 10, in: 25.4 };

const SIXTEENTHS = 16;
const MINUS = "−";

/** `12.5 cm`, `4 3/8 in`: to a tenth of a mm, or to a sixteenth of an inch. */
export function lengthText(mm: number, unit: Unit): string {
  return `${amountText(mm, unit)} ${unit}`;
}

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

const WRITTEN = /^([-−+]?)\s*(?:(\d{1,4}(?:[.,]\d{1,4})?)|(?:(\d{1,4})[ -]+)?(\d{1,2})\/(2|4|8|16))\s*(mm|cm|in|inch|inches|["″])?$/i;

/** What a person wrote, in mm; null where it is not a length. A number without a unit is in `unit`. */
export function parseLength(text: string, unit: Unit): number | null {
  const found = WRITTEN.exec(text.trim());
  if (!found) return null;
  const [, sign, decimal, whole, top, bottom, named] = found;
  const amount = decimal ? Number(decimal.replace(",", ".")) : Number(whole ?? 0) + Number(top) / Number(bottom);
  const own = named?.toLowerCase();
  const mm = own === "mm" ? 1 : own === "cm" ? MM.cm : own ? MM.in : MM[unit];
  const size = amount * mm;
  return sign === "-" || sign === MINUS ? -size : size;
}
