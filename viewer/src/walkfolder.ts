// The exported folder's page: a walk, or a painting, with deep zoom, lights to choose and captions. It fetches nothing: its data come as a script, its
// pictures as files beside it, so that it works from a memory stick as well as from a web server.
import 'ol/ol.css';
import './walk.css';
import { FolderPage, type FolderWalk } from './walkpage';

declare global {
  interface Window {
    sandaracWalk?: FolderWalk;
  }
}

const main = document.getElementById('walk');
if (main && window.sandaracWalk) new FolderPage(main, window.sandaracWalk).begin();
