// The Sections page's door: puts a sample's micrographs beside each other, in place of the small pictures that the page came with.
import 'ol/ol.css';
import './sections.css';
import { Api } from './api';
import { el } from './dom';
import { Micrographs } from './micrographs';

async function start(place: HTMLElement): Promise<void> {
  const api = new Api();
  const ids = (place.dataset['layers'] ?? '').split(',').filter((id) => id !== '');
  try {
    const layers = await Promise.all(ids.map((id) => api.layer(id)));
    new Micrographs(place, layers, api).begin();
  } catch (error) {
    // The small pictures stay; why they do not grow is said.
    place.append(el('p', { class: 'note', role: 'alert' }, (error as Error).message, ' ', el('button', { type: 'button', click: () => location.reload() }, 'Load the page again')));
  }
}

const place = document.getElementById('micrographs');
if (place) void start(place);
