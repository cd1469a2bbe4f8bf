// Numbers as people read them: the unit always beside the number.
import { locale, t } from './language';

/** A fixed number of digits in the reader's language. */
export const fixed = (value: number, digits: number): string =>
  value.toLocaleString(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits, useGrouping: false });

/** A number of significant figures. */
export const figures = (value: number, digits: number): string =>
  value.toLocaleString(locale, { minimumSignificantDigits: digits, maximumSignificantDigits: digits, useGrouping: false });

/** A place as the trade gives it: "123.4 mm from left, 88.0 from bottom". */
export const placeText = ({ fromLeft, fromBottom }: { fromLeft: number; fromBottom: number }): string =>
  t('{0} mm from left, {1} from bottom', fixed(fromLeft, 1), fixed(fromBottom, 1));

/** A length on the painting. */
export const lengthText = (mm: number): string => (mm < 1 ? `${fixed(mm, 2)} mm` : `${fixed(mm, 1)} mm`);

/** An area on the painting, given in mm2. */
export const areaText = (mm2: number): string => {
  const cm2 = mm2 / 100;
  return `${fixed(cm2, cm2 < 1 ? 3 : cm2 < 100 ? 2 : 1)} cm²`;
};

/** An angle in degrees. */
export const angleText = (degrees: number): string => `${fixed(degrees, 1)}°`;

/** A value of a photograph or reading: integers stay integers, others get four figures. */
export const valueText = (value: number | null): string => {
  if (value === null || !Number.isFinite(value)) return t('no data');
  return Number.isInteger(value) ? String(value) : value.toLocaleString(locale, { maximumSignificantDigits: 4, useGrouping: false });
};

/** The same for a field, which takes a point in every language. */
export const fieldText = (value: number): string => String(Number.isInteger(value) ? value : Number(value.toPrecision(4)));

const names: Readonly<Record<string, string>> = { red: t('red'), green: t('green'), blue: t('blue'), grey: t('grey'), infrared: t('infrared'), counts: t('counts'), relative: t('relative') };

/** The name of a band or unit, which the server gives in English; what is known by no other name stays. */
export const nameText = (name: string): string => names[name] ?? name;

/** The longest round length (1, 2 or 5 times a power of ten, mm) that fits on so many pixels. */
export function roundLength(mmPerPixel: number, pixels: number): number {
  const most = mmPerPixel * pixels;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((s) => s * power <= most * (1 + 1e-9)) ?? 1;
  return step * power;
}

/** A round length for the scale bar: um below a millimetre, cm from ten centimetres up. */
export function scaleText(mm: number): string {
  if (mm < 0.999) return `${Math.round(mm * 1000)} µm`;
  return mm >= 100 ? `${Math.round(mm / 10)} cm` : `${Math.round(mm)} mm`;
}
