// The server's API as the viewer uses it. Lengths in mm on the plane, y down.
import { t } from './language';
import type { Box, Place } from './plane';
import type { Profile } from './profileline';
import type { Walk, WalkContent } from './walklist';
import type { ShownWalk } from './walkstep';

export interface Layer {
  id: string;
  kind: 'photograph' | 'reading';
  light: string;
  label: string;
  detail: string | null;
  onPlane: boolean;
  verdict: string | null;
  residual: string | null;
  extentMm: Box;
  width: number;
  height: number;
  mmPerPixel: number;
  levels: number;
  tileSize: number;
  bands: string[];
  format: 'u8' | 'u16' | 'f32';
  unit: string;
  low: number;
  high: number;
  fullScale: number;
  version: string;
  photographId: string | null;
  runId: string | null;
  warnings: { code: string; message: string }[];
  /** What the values 0, 1, 2, ... are called; null when they are measures. */
  classes: string[] | null;
}

export interface Painting {
  id: string;
  title: string;
  technique: string | null;
  widthMm: number;
  heightMm: number;
  sizeOrigin: string;
  layers: Layer[];
}

export interface Geometry {
  type: 'Point' | 'LineString' | 'Polygon';
  coordinates: unknown;
}

export interface Zone {
  id: string;
  name: string;
  kind: string;
  note: string;
  geometry: Geometry;
  revision: number;
  isCandidate: boolean;
  confidence: number | null;
  reason: string | null;
  /** The run that proposed it. */
  runId: string | null;
  areaMm2: number;
  lengthMm: number;
}

/** How a kind of phenomenon is drawn; lengths are mm on a printed sheet. */
export interface Appearance {
  /** A term's key, or the word of a kind that no term names. */
  key: string;
  /** What readings call it; empty when they do not. */
  kind: string;
  category: 'reading' | 'condition' | 'technique' | 'treatment';
  group: string;
  name: string;
  code: string;
  ink: string;
  outline: { dashes: number[]; widthMm: number };
  hatch: { angle: number; width: number; height: number; fine: Place[][]; bold: Place[][] };
  hasOwnHatch: boolean;
}

/** What a person states of some zones, as far as the Easel shows it. */
export interface Finding {
  id: string;
  content: { number: number; term: string; zones: string[] };
}

export type ZoneDraft = Pick<Zone, 'name' | 'kind' | 'note' | 'geometry' | 'isCandidate'>;

export interface HereLayer {
  layerId: string;
  light: string;
  label: string;
  pixel?: Place;
  /** At a place: the file's own values; null where it holds none. */
  values?: (number | null)[];
  /** Over a zone. */
  mean?: (number | null)[];
  sd?: (number | null)[];
  n?: number;
  bands: string[];
  unit: string;
}

/** How large a zone is; without uncertainty where nothing says how far its outline may be off. */
export interface ZoneExtent {
  areaMm2: number;
  areaUncertaintyMm2: number | null;
  faceShare: number;
  faceShareUncertainty: number | null;
  note: string;
}

/** What a zone's appearance in one light is consistent with: several materials, or none. */
export interface LightConsistency {
  light: string;
  seen: string;
  candidates: { name: string; reason: string; source: string }[];
  noAnswer: string | null;
  /** Ruled out by themselves by visible colour, but not as parts of a mixture. */
  inMixtures: { name: string; reason: string; source: string }[];
  cautions: string[];
}

/** A paint sample; its place is not always known. */
export interface Sample {
  id: string;
  content: { number: string; x: number | null; y: number | null };
}

/** Where a cleaning test is, mm on the plane. */
export interface CleaningSpot {
  id: string;
  number: number;
  x: number;
  y: number;
  isDone: boolean;
  wentFurther: boolean;
}

/** A finding that names a zone at a place. */
export interface FindingHere {
  id: string;
  number: number;
  term: string;
  observation: string;
  interpretation: string;
  confidence: 'certain' | 'probable' | 'possible';
}

export interface Here {
  layers: HereLayer[];
  zones: Zone[];
  /** Near a place. */
  samples?: { id: string; number: string; distanceMm: number }[];
  tests?: { id: string; number: number; agent: string; distanceMm: number }[];
  findings?: FindingHere[];
  /** Over a zone. */
  extent?: ZoneExtent;
  consistentWith?: LightConsistency[];
  overlaps?: { zoneId: string; areaMm2: number; share: number }[];
}

export interface Figure {
  name: string;
  title: string;
  unit: string;
  value: number | null;
  uncertainty: number | null;
  note: string | null;
  subject: string | null;
}

export interface Run {
  id: string;
  state: 'queued' | 'running' | 'done' | 'no-answer' | 'cancelled' | 'failed' | 'interrupted';
  progress: number;
  version: number;
  queuedAt: string;
  endedAt: string | null;
  inputs: { slot: string; fileName: string; photographId?: string }[];
  problem: { message: string; remedy?: string } | null;
  noAnswer: string | null;
  reading: string;
  parameters: Record<string, string>;
  figures: Figure[];
  rasters: { name: string; title: string; layerId: string }[];
  warnings: { code: string; message: string }[];
}

/** What a run proposed in a micrograph, in its pixels, y down. */
export interface Proposal {
  kind: string;
  confidence: number;
  reason: string;
  geometry: Geometry;
}

/** How far a step of the treatment was at the end of a day. */
export interface TreatDay {
  day: string;
  done: { areaMm2: number; areaUncertaintyMm2: number | null };
  share: number;
  shareUncertainty: number | null;
  leftMm2: number;
  hours: number;
}

/** A step of the treatment with the days of its log. */
export interface TreatStep {
  stepId: string;
  name: string;
  days: TreatDay[];
  noAnswer: string | null;
}

/** Where a step was done at the end of a day, and where it was still to do; with how each is drawn. */
export interface TreatPlaces {
  features: { geometry: Geometry; properties: { state: 'done' | 'to-do' } }[];
  looks: Record<'done' | 'to-do', Appearance>;
}

/** What can be measured of a sample's section, and what was. */
export interface Section {
  problem: string | null;
  inputs: Record<string, string[]>;
  leftOut: string[];
  scale: { umPerPixel: number; origin: string } | null;
  /** Photographs that may show a stage micrometer. */
  stageMicrometers: { id: string; fileName: string }[];
  layers: Run | null;
  grainParameters: Record<string, string> | null;
  grains: Run | null;
  measured: MeasuredLayer[];
}

/** A layer of a section as it was measured, or with a letter as part a sublayer; numbers from the bottom up, coverage from 0 to 1. */
export interface MeasuredLayer {
  number: number;
  part: string;
  unit: string;
  mean: number | null;
  uncertainty: number | null;
  deviation: number | null;
  low: number | null;
  high: number | null;
  range: string;
  coverage: number | null;
  places: number | null;
  colour: string | null;
  luminescence: string | null;
  grains: { counted: number; d50: number | null; uncertainty: number | null; unit: string; note: string | null } | null;
}

/** A layer of a section as it is written down. */
export interface WrittenLayer {
  id: string;
  content: { sampleId: string; number: string; name: string };
}

/** What an exported walk is to say of itself. */
export interface WalkExportAsk {
  base: string;
  attribution: string;
  rights: string;
  longestSide: number | null;
}

/** A walk on its way into a zip. */
export interface WalkExport {
  id: string;
  state: 'running' | 'done' | 'failed' | 'cancelled';
  /** 0 to 1. */
  done: number;
  bytes: number | null;
  problem: string | null;
  remedy: string | null;
  warnings: { code: string; message: string }[];
}

/** A place of which a person says what it is. */
export interface Mark {
  type: 'Feature';
  properties: { class: string };
  geometry: Geometry;
}

export interface MarkCollection {
  type: 'FeatureCollection';
  features: Mark[];
}

/** What a person teaches with. */
export interface Sheet {
  classes: string[];
  /** How wide a stroke counts, mm. */
  strokeWidth: number;
  /** Photographs that are looked at; empty while nobody has chosen. */
  layers: string[];
  marks: MarkCollection;
}

export interface TaughtClass {
  name: string;
  examples: number;
  verdict: string;
  /** Null when there are not enough examples to say. */
  isSeparable: boolean | null;
  recognised: number | null;
  lower: number | null;
  upper: number | null;
  /** A PNG in base 64: grey 0 to 1, transparent without data. */
  probability: string;
}

/** How far what was learnt holds on marks that were held out, shares of 1. */
export interface TaughtQuality {
  balanced: number;
  lower: number;
  upper: number;
  calibrationError: number;
  reliability: { weight: number; said: number; right: number }[];
}

export interface Taught {
  view: Box;
  mmPerPixel: number;
  noAnswer: string | null;
  classes: TaughtClass[];
  quality: TaughtQuality | null;
  importance: { name: string; share: number | null }[];
}

export interface Question {
  marks: MarkCollection;
  strokeWidth: number;
  layers: string[];
  view: Box;
  mmPerPixel: number;
}

export interface Alignment {
  version: number;
  verdict: string;
  reason: string;
  residuals: { medianMm: number | null; p95Mm: number | null; maxMm: number | null; note: string } | null;
  inForce: boolean;
}

export type MapModel = 'similarity' | 'affine' | 'homography' | 'homography-with-lens' | 'smooth';

/** A pair as the server takes it: mm on the plane, pixels of the photograph. */
export interface PairSent {
  place: Place;
  pixel: Place;
  used: boolean;
}

/** Half lie within the median, 95 of 100 within p95, all within max; mm. */
export interface Spread {
  median: number;
  p95: number;
  max: number;
}

export interface PairsFit {
  model: MapModel;
  mmPerPixel: number;
  pairs: { residual: Place; mm: number; px: number; leftOutMm: number | null; othersRmsMm: number | null }[];
  residual: Spread;
  leftOut: Spread | null;
}

/** What an alignment leaves at a place: right and down, mm. */
export interface Residual {
  place: Place;
  residual: Place;
}

/** What the server said was wrong, in its own words. */
export class Problem extends Error {
  constructor(readonly status: number, message: string, readonly remedy: string, readonly code: string) {
    super(message);
  }
}

/** What is wrong and what to do, in one line. */
export const told = ({ message, remedy }: { message: string; remedy?: string }): string => [message, remedy].filter(Boolean).join(' ');

/** The server could not be reached at all. */
export class Lost extends Error {}

/** A call that was given up because a newer one replaced it. */
export const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError';

export class Api {
  /** Told each time the server fails to answer, and each time it answers. */
  onReach: (reached: boolean) => void = () => {};

  painting = (id: string): Promise<Painting> => this.json('GET', `/api/paintings/${id}`);
  measuredDistance = (painting: string, from: Place, to: Place, mm: number): Promise<{ runIds: string[] }> =>
    this.json('POST', `/api/paintings/${painting}/distance`, { from, to, mm });
  layer = (id: string): Promise<Layer> => this.json('GET', `/api/layers/${id}`);
  zones = (painting: string): Promise<Zone[]> => this.json('GET', `/api/paintings/${painting}/zones`);
  appearances = (): Promise<Appearance[]> => this.json('GET', '/api/appearances');
  findings = (painting: string): Promise<Finding[]> => this.json('GET', `/api/paintings/${painting}/findings`);
  cleaningSpots = (painting: string): Promise<CleaningSpot[]> => this.json('GET', `/api/paintings/${painting}/cleaning-spots`);

  samples = (painting: string): Promise<Sample[]> => this.json('GET', `/api/paintings/${painting}/samples`);
  createZone = (painting: string, draft: ZoneDraft): Promise<Zone> => this.json('POST', `/api/paintings/${painting}/zones`, draft);
  updateZone = (zone: Zone): Promise<Zone> => this.json('PUT', `/api/zones/${zone.id}`, draftOf(zone), zone.revision);
  deleteZone = (zone: Zone): Promise<void> => this.json('DELETE', `/api/zones/${zone.id}`, undefined, zone.revision);
  /** Makes a candidate a finding. */
  keepCandidate = (zone: Zone): Promise<{ id: string }> => this.json('POST', `/api/zones/${zone.id}/keep`, undefined, zone.revision);
  rejectCandidate = (zone: Zone, reason: string): Promise<void> => this.json('POST', `/api/zones/${zone.id}/reject`, { reason }, zone.revision);
  /** Takes the last decision about a candidate back. */
  reopenCandidate = (id: string): Promise<Zone> => this.json('POST', `/api/zones/${id}/reopen`);
  restoreZone = (id: string): Promise<Zone> => this.json('POST', `/api/zones/${id}/restore`);
  herePoint = (painting: string, [x, y]: Place, signal: AbortSignal): Promise<Here> =>
    this.json('GET', `/api/paintings/${painting}/here?x=${x.toFixed(4)}&y=${y.toFixed(4)}`, undefined, undefined, signal);
  hereZone = (painting: string, zone: string, signal: AbortSignal): Promise<Here> =>
    this.json('GET', `/api/paintings/${painting}/here?zone=${zone}`, undefined, undefined, signal);
  corners = (photograph: string): Promise<{ corners: Place[] | null }> => this.json('GET', `/api/photographs/${photograph}/corners`);
  setCorners = (photograph: string, corners: Place[]): Promise<{ runId: string }> =>
    this.json('PUT', `/api/photographs/${photograph}/corners`, { corners });
  photograph = (id: string): Promise<{ fileName: string; alignments: Alignment[] }> => this.json('GET', `/api/photographs/${id}`);
  pairs = (photograph: string): Promise<PairSent[]> => this.json('GET', `/api/photographs/${photograph}/pairs`);
  snapPair = (photograph: string, reference: string, pairs: PairSent[], pair: PairSent): Promise<{ pixel: Place | null; score: number | null; reason: string | null }> =>
    this.json('POST', `/api/photographs/${photograph}/pairs/snap`, { reference, pairs, pair });
  fitPairs = (photograph: string, pairs: PairSent[], model: string): Promise<PairsFit> => this.json('POST', `/api/photographs/${photograph}/pairs/fit`, { pairs, model });
  predictPair = (photograph: string, pairs: PairSent[], known: { place: Place } | { pixel: Place }): Promise<{ place: Place | null; pixel: Place | null; mmPerPixel: number | null }> =>
    this.json('POST', `/api/photographs/${photograph}/pairs/predict`, { pairs, ...known });
  alignByPairs = (photograph: string, reference: string, pairs: PairSent[], model: string): Promise<{ runId: string }> =>
    this.json('POST', `/api/photographs/${photograph}/pairs`, { reference, pairs, model });
  match = (photograph: string, reference: string, model: string): Promise<{ runId: string }> =>
    this.json('POST', `/api/photographs/${photograph}/match`, { reference, model });
  residual = (photograph: string): Promise<Residual[]> => this.json('GET', `/api/photographs/${photograph}/residual`);
  marks = (painting: string): Promise<Sheet & { revision: number }> => this.json('GET', `/api/paintings/${painting}/marks`);
  storeMarks = (painting: string, sheet: Sheet, revision: number): Promise<{ revision: number }> => this.json('PUT', `/api/paintings/${painting}/marks`, sheet, revision);
  teach = (painting: string, question: Question, signal: AbortSignal): Promise<Taught> => this.json('POST', `/api/paintings/${painting}/teach`, question, undefined, signal);
  startRun = (painting: string, reading: string, parameters: Record<string, unknown>, inputs: Record<string, string[]>): Promise<{ runId: string }> =>
    this.json('POST', `/api/paintings/${painting}/runs`, { reading, parameters, inputs });
  profile = (layer: string, line: readonly Place[], breadth: number, signal: AbortSignal): Promise<Profile> =>
    this.json('GET', `/api/layers/${layer}/profile?line=${line.flat().map((v) => v.toFixed(4)).join(',')}&breadth=${breadth}`, undefined, undefined, signal);
  inputs = (painting: string, reading: string): Promise<Record<string, string[]>> => this.json('GET', `/api/paintings/${painting}/inputs?reading=${reading}`);
  runs = (painting: string, reading: string): Promise<Run[]> => this.json('GET', `/api/paintings/${painting}/runs?reading=${reading}`);
  run = (id: string): Promise<Run> => this.json('GET', `/api/runs/${id}`);
  cancelRun = (id: string): Promise<Run> => this.json('POST', `/api/runs/${id}/cancel`);

  section = (sample: string, run?: string): Promise<Section> => this.json('GET', `/api/samples/${sample}/section${run ? `?run=${run}` : ''}`);
  proposals = (run: string): Promise<Proposal[]> => this.json('GET', `/api/runs/${run}/proposals`);
  takeOver = (sample: string, runId: string): Promise<WrittenLayer[]> => this.json('POST', `/api/samples/${sample}/layers`, { runId });
  sectionLayers = (painting: string): Promise<WrittenLayer[]> => this.json('GET', `/api/paintings/${painting}/section-layers`);

  treatment = (painting: string): Promise<TreatStep[]> => this.json('GET', `/api/paintings/${painting}/treatment/progress`);
  treatPlaces = (step: string, day: string | null, signal: AbortSignal): Promise<TreatPlaces> => this.json('GET', `/api/treatment-steps/${step}/places${day ? `?day=${day}` : ''}`, undefined, undefined, signal);

  walks = (painting: string): Promise<Walk[]> => this.json('GET', `/api/paintings/${painting}/walks`);
  createWalk = (painting: string, content: WalkContent): Promise<Walk> => this.json('POST', `/api/paintings/${painting}/walks`, content);
  updateWalk = ({ id, revision, content }: Walk): Promise<Walk> => this.json('PUT', `/api/walks/${id}`, content, revision);
  deleteWalk = ({ id, revision }: Walk): Promise<void> => this.json('DELETE', `/api/walks/${id}`, undefined, revision);
  restoreWalk = (id: string): Promise<Walk> => this.json('POST', `/api/walks/${id}/restore`);
  exportWalk = (walk: string, ask: WalkExportAsk): Promise<WalkExport> => this.json('POST', `/api/walks/${walk}/exports`, ask);
  walkExport = (id: string): Promise<WalkExport> => this.json('GET', `/api/exports/${id}`);
  cancelExport = (id: string): Promise<void> => this.json('DELETE', `/api/exports/${id}`);
  shownWalk = (walk: string): Promise<ShownWalk> => this.json('GET', `/api/walks/${walk}/shown`);

  thumbnailUrl = (layer: Layer): string => `/api/layers/${layer.id}/thumbnail?v=${layer.version}`;

  /** One tile as the server sends it; level 0 is full resolution. */
  async tile(layer: Layer, level: number, col: number, row: number, signal?: AbortSignal): Promise<Response> {
    const response = await this.reach(`/api/layers/${layer.id}/tiles/${level}/${col}/${row}?v=${layer.version}`, { signal });
    if (!response.ok) throw new Problem(response.status, t('A tile of {0} is missing.', layer.label), '', 'tile-missing');
    return response;
  }

  private async json<T>(method: string, path: string, body?: unknown, revision?: number, signal?: AbortSignal): Promise<T> {
    const headers: Record<string, string> = { Accept: 'application/json' };
    if (body !== undefined) headers['Content-Type'] = 'application/json';
    if (revision !== undefined) headers['If-Match'] = `"${revision}"`;
    const response = await this.reach(path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body), signal });
    if (!response.ok) throw await problemOf(response);
    return (response.status === 204 ? undefined : await response.json()) as T;
  }

  private async reach(path: string, init: RequestInit): Promise<Response> {
    let response: Response;
    try {
      response = await fetch(path, init);
    } catch (error) {
      if (isAbort(error)) throw error;
      this.onReach(false);
      throw new Lost(t('The server does not answer.'));
    }
    this.onReach(true);
    return response;
  }
}

/** The part of a zone that a person may change. */
export const draftOf = ({ name, kind, note, geometry, isCandidate }: ZoneDraft): ZoneDraft => ({ name, kind, note, geometry, isCandidate });

async function problemOf(response: Response): Promise<Problem> {
  const said = (await response.json().catch(() => ({}))) as { title?: string; detail?: string; remedy?: string; code?: string };
  return new Problem(response.status, said.detail ?? said.title ?? t('The server answered {0}.', response.status), said.remedy ?? '', said.code ?? '');
}
