// The Sections page's door: puts a sample's micrographs beside each other, in place of the small pictures that the page came with.
import 'ol/ol.css';
import './sections.css';
import { Api } from './api';
import { el } from './dom';
import { t } from './language';
import { Micrographs } from './micrographs';
import { SectionDesk } from './sectiondesk';

async function start(place: HTMLElement): Promise<void> {
  const api = new Api();
  const ids = (place.dataset['layers'] ?? '').split(',').filter((id) => id !== '');
  try {
    const layers = await Promise.all(ids.map((id) => api.layer(id)));
    const micrographs = new Micrographs(place, layers, api);
    micrographs.begin();
    if (desk) await new SectionDesk(desk, desk.dataset['painting']!, desk.dataset['sample']!, micrographs, api).begin(new URLSearchParams(location.search).get('run') ?? undefined);
  } catch (error) {
    // The small pictures stay; why they do not grow is said.
    place.append(el('p', { class: 'note', role: 'alert' }, (error as Error).message, ' ', el('button', { type: 'button', click: () => location.reload() }, t('Load the page again'))));
  }
}

const desk = document.getElementById('section-desk');
const place = document.getElementById('micrographs');
if (place) void start(place);
