// Bundles the viewer into the server's web root: a script and a style sheet a page, and the licences of what is bundled. An exported walk is opened as
// a file too, where browsers load no modules: its script is a classic one.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as esbuild from 'esbuild';

const outdir = '../src/Sandarac.Server/wwwroot/viewer';
const common = { bundle: true, target: 'es2022', minify: true, outdir, metafile: true, logLevel: 'info', loader: { '.woff2': 'file' }, assetNames: '[name]' };
const builds = [
  { ...common, format: 'esm', entryPoints: { easel: 'src/easel.ts', sections: 'src/sections.ts', present: 'src/present.ts', rings: 'src/rings.ts' } },
  { ...common, format: 'iife', entryPoints: { walk: 'src/walkfolder.ts' } },
];

/** The packages of a bundle, by the paths of the files that went into it. */
function packagesOf(metafile) {
  const names = Object.keys(metafile.inputs).map((path) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1]);
  return [...new Set(names.filter(Boolean))].sort();
}

function licenceOf(name) {
  const folder = join('node_modules', name);
  const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((f) => /^licen[cs]e/i.test(f));
  const text = file && existsSync(join(folder, file)) ? readFileSync(join(folder, file), 'utf8') : '';
  return `${name} ${version} (${license})\n\n${text.trim()}\n`;
}

if (process.argv.includes('--watch')) for (const build of builds) await (await esbuild.context({ ...build, sourcemap: 'inline' })).watch();
else {
  const built = await Promise.all(builds.map((build) => esbuild.build(build)));
  // The fonts travel with an exported walk, and their licence with them.
  const fonts = '../src/Sandarac.Server/wwwroot/fonts';
  const ofFonts = readdirSync(fonts).filter((f) => /^LICENSE/.test(f)).map((f) => `${f.replace(/^LICENSE-|\.txt$/g, '')}\n\n${readFileSync(join(fonts, f), 'utf8').trim()}\n`);
  const inputs = Object.assign({}, ...built.map((b) => b.metafile.inputs));
  writeFileSync(join(outdir, 'LICENCES.txt'), [...packagesOf({ inputs }).map(licenceOf), ...ofFonts].join('\n----\n\n'));
}
