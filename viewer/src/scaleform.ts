// Where a section's scale comes from: the file, a number, a picture of a stage micrometer, or objective and camera. What is chosen becomes parameters and inputs of the run.
import type { Run, Section } from './api';
import { el, fill } from './dom';
import { labelled, numberField } from './fields';
import { t } from './language';
import { figures } from './units';

const origins = { file: t("the file's own"), entered: t('entered'), micrometer: t('a stage micrometer'), optics: t('objective and camera') } as const;

type Origin = keyof typeof origins;

/** The slot of the readings of sections that takes the picture of a stage micrometer. */
const slot = 'stage-micrometer';

export class ScaleForm {
  readonly element = el('div', { class: 'fields' });
  private section: Section | null = null;
  private readonly origin = el('select', { id: 'section-scale-origin', change: () => this.render() }, ...Object.entries(origins).map(([value, word]) => el('option', { value }, word)));
  private readonly umPerPixel = numberField('um-per-pixel', 0, 1000, 'any');
  private readonly uncertainty = numberField('scale-uncertainty', 0, 50, 'any');
  private readonly picture = el('select', { id: 'section-micrometer' });
  private readonly division = numberField('division', 0.1, 1000, 'any');
  private readonly objective = numberField('objective', 0, 250, 'any');
  private readonly adapter = numberField('adapter', 0.05, 20, 'any');
  private readonly pitch = numberField('pixel-pitch', 0, 100, 'any');
  private readonly binning = numberField('binning', 1, 64, '1');

  /** Fills in what a run used, or what there is without one. */
  show(section: Section, run: Run | null): void {
    this.section = section;
    const { parameters = {}, inputs = [] } = run ?? {};
    const text = (name: string): string => (Number(parameters[name]) > 0 ? parameters[name]! : '');
    const used = inputs.find((i) => i.slot === slot)?.photographId;
    for (const field of [this.umPerPixel, this.uncertainty, this.division, this.objective, this.adapter, this.pitch, this.binning]) field.value = text(field.name);
    fill(this.picture, el('option', { value: '' }, t('choose')), ...section.stageMicrometers.map(({ id, fileName }) => el('option', { value: id }, fileName)));
    this.picture.value = used ?? '';
    this.origin.value = this.umPerPixel.value !== '' ? 'entered' : used ? 'micrometer' : this.objective.value !== '' ? 'optics' : 'file';
    this.render();
  }

  /** What is wrong with what is entered, in words; null when it can be used. */
  get problem(): string | null {
    if (this.chosen === 'entered' && !(Number(this.umPerPixel.value) > 0)) return t('Enter micrometres per pixel, or choose another origin of the scale.');
    if (this.chosen === 'micrometer' && this.picture.value === '') return t('Choose the picture of the stage micrometer. It is a photograph of the same folder, by the same objective and camera.');
    if (this.chosen === 'optics' && !(Number(this.objective.value) > 0 && Number(this.pitch.value) > 0)) return t("Enter the objective's magnification and the camera's pixel pitch; both stand in the papers of the microscope and the camera.");
    return null;
  }

  /** Parameters of the run. */
  get parameters(): Record<string, number> {
    const fields = { file: [this.uncertainty], entered: [this.umPerPixel, this.uncertainty], micrometer: [this.division], optics: [this.objective, this.adapter, this.pitch, this.binning] }[this.chosen];
    return Object.fromEntries(fields.filter((f) => f.value !== '').map((f) => [f.name, Number(f.value)]));
  }

  /** Inputs of the run besides the micrographs. */
  get inputs(): Record<string, string[]> {
    return this.chosen === 'micrometer' ? { [slot]: [this.picture.value] } : {};
  }

  private get chosen(): Origin {
    return this.origin.value as Origin;
  }

  private render(): void {
    const own = this.section?.scale;
    const known = own ? t('{0} um per pixel ({1})', figures(own.umPerPixel, 3), own.origin === 'metadata' ? t('its resolution tags') : own.origin) : t('none: thicknesses will be in pixels only');
    const uncertainty = labelled(t('Its uncertainty'), this.uncertainty, '%', t('95 % interval'));
    const fields = {
      file: own ? [uncertainty] : [],
      entered: [labelled(t('Scale'), this.umPerPixel, t('um per pixel'), ''), uncertainty],
      micrometer: [labelled(t('Its picture'), this.picture, '', t('By the same objective and camera, not resized')), labelled(t('Closest ticks'), this.division, 'um', t('Left empty: 10 um'))],
      optics: [labelled(t("Objective's magnification"), this.objective, 'x', t('As engraved')), labelled(t("Adapter's magnification"), this.adapter, 'x', t('Of all that lies between objective and camera; left empty: 1')),
        labelled(t("Camera's pixel pitch"), this.pitch, 'um', t('Distance of its pixels')), labelled(t('Binning'), this.binning, '', t('Pixels of the camera along a side of one of the image; left empty: 1'))],
    }[this.chosen];
    fill(this.element, labelled(t('Scale from'), this.origin, '', this.chosen === 'file' ? known : ''), ...fields);
  }
}
