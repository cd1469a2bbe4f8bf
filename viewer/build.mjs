// Bundles the viewer into the server's web root: a script and a style sheet a page, and the licences of what is bundled.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as esbuild from 'esbuild';

const outdir = '../src/Sandarac.Server/wwwroot/viewer';
const options = {
  entryPoints: { easel: 'src/easel.ts', sections: 'src/sections.ts' }, bundle: true, format: 'esm', target: 'es2022', minify: true, outdir, metafile: true, logLevel: 'info',
};

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

if (process.argv.includes('--watch')) await (await esbuild.context({ ...options, sourcemap: 'inline' })).watch();
else {
  const { metafile } = await esbuild.build(options);
  writeFileSync(join(outdir, 'LICENCES.txt'), packagesOf(metafile).map(licenceOf).join('\n----\n\n'));
}
