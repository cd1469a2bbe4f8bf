// The neutral ground around a picture.

/** The steps of lightness L* that a key goes through. */
export const groundSteps = [20, 35, 50, 65, 80] as const;

/** The exact neutral sRGB grey of a CIE lightness L*, 0 to 100. CIE 15:2018 (L* to Y) and IEC 61966-2-1 (sRGB encoding). */
export function greyOfLightness(lightness: number): number {
  const y = lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / 903.2963;
  const encoded = y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055;
  return Math.round(255 * encoded);
}

/** The next step in a direction, staying at the last one. */
export function nextGround(lightness: number, direction: 1 | -1): number {
  const at = groundSteps.reduce((best, step, i) => (Math.abs(step - lightness) < Math.abs(groundSteps[best]! - lightness) ? i : best), 0);
  return groundSteps[Math.min(groundSteps.length - 1, Math.max(0, at + direction))]!;
}
