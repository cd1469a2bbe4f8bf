// The Easel's door: mounts the viewer into <main id="easel" data-painting="ID">.
import 'ol/ol.css';
import './easel.css';
import { Api, Lost, Problem } from './api';
import { openCorners } from './corners';
import { el, fill } from './dom';
import { setKinds } from './kinds';
import { t } from './language';
import { readLineAsked } from './lineasked';
import { openLine } from './linepage';
import { openOriginal } from './original';
import { openPairs } from './pairs';
import { Workbench } from './workbench';

async function start(main: HTMLElement): Promise<void> {
  const id = main.dataset['painting'] ?? '';
  const api = new Api();
  try {
    const painting = await api.painting(id);
    const query = new URLSearchParams(location.search);
    const photograph = query.get('corners');
    const pairs = query.get('pairs');
    const original = query.get('original');
    const line = readLineAsked(query);
    if (photograph) await openCorners(main, painting, photograph, api);
    else if (pairs) await openPairs(main, painting, pairs, api);
    else if (line) await openLine(main, painting, line, api);
    else if (original) openOriginal(main, painting, await api.layer(original), api);
    else {
      setKinds(await api.appearances());
      new Workbench(main, painting, api).begin();
    }
  } catch (error) {
    if (!(error instanceof Lost || error instanceof Problem)) throw error;
    const again = el('button', { type: 'button', click: () => void start(main) }, t('Try again'));
    fill(main, el('div', { class: 'failed', role: 'alert' }, el('p', {}, error.message), again));
  }
}

const main = document.getElementById('easel');
if (main) void start(main);
