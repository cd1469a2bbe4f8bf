// The words of an exported page, in the language of its captions; English where there are no others.
import type { Mode } from './state';

export interface Words {
  back: string;
  next: string;
  of: string;
  views: string;
  picture: string;
  other: string;
  amount: Partial<Record<Mode, string>>;
  modes: Record<Mode, string>;
  whole: string;
  asWritten: string;
  closer: string;
  further: string;
  stage: string;
  full: string;
  zones: string;
}

const english: Words = {
  back: 'Back', next: 'Next', of: 'of', views: 'Views', picture: 'Picture', other: 'and', amount: { divide: 'Place of the edge', fade: 'How strongly the second is seen' },
  modes: { alone: 'Alone', beside: 'Beside', divide: 'Divide', fade: 'Fade', loupe: 'Loupe' }, whole: 'Whole', asWritten: 'View as written', closer: 'Closer', further: 'Further',
  stage: 'The painting. Arrow keys move it, plus and minus zoom, H shows all of it.', full: 'Full screen', zones: 'Zones',
};

const spanish: Words = {
  back: 'Anterior', next: 'Siguiente', of: 'de', views: 'Vistas', picture: 'Imagen', other: 'y', amount: { divide: 'Posición del borde', fade: 'Intensidad de la segunda' },
  modes: { alone: 'Sola', beside: 'Al lado', divide: 'Partida', fade: 'Fundida', loupe: 'Lupa' }, whole: 'Entera', asWritten: 'Vista original', closer: 'Acercar', further: 'Alejar',
  stage: 'La pintura. Las flechas la mueven, más y menos acercan y alejan, H la muestra entera.', full: 'Pantalla completa', zones: 'Zonas',
};

/** The words for a language tag. */
export const wordsFor = (language: string): Words => (/^es\b/i.test(language) ? spanish : english);
