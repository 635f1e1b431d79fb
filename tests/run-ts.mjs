// Runs a TypeScript entry under plain Node: `node tests/run-ts.mjs tests/drive.ts --machine FILE`.
// The entry and the project's own files become one module, packages stay where they are, and it runs in this very process:
// stdin and stdout are the entry's alone.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs'
import { basename, isAbsolute, join, resolve } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { rolldown } from 'rolldown'

const top = fileURLToPath(new URL('..', import.meta.url))
const cache = join(top, 'node_modules/.cache/ohmward')

/** @param {string} entry a TypeScript file @returns {Promise<string>} the module it was bundled to */
async function bundled(entry) {
  const isPackage = (/** @type {string} */ id) => !id.startsWith('.') && !isAbsolute(id)
  const bundle = await rolldown({ input: entry, platform: 'node', external: isPackage, logLevel: 'silent' })
  const { output } = await bundle.generate({ dir: cache, format: 'esm', sourcemap: 'inline', codeSplitting: false })
  await bundle.close()
  const { code } = output[0]
  // Named by its content and moved into place whole, so that several runs at once never read half a file.
  const file = join(cache, `${basename(entry, '.ts')}-${createHash('sha256').update(code).digest('hex').slice(0, 16)}.mjs`)
  if (!existsSync(file)) {
    mkdirSync(cache, { recursive: true })
    writeFileSync(`${file}.${process.pid}`, code)
    renameSync(`${file}.${process.pid}`, file)
  }
  return file
}

const [entry, ...args] = process.argv.slice(2)
if (!entry) {
  process.stderr.write('usage: node tests/run-ts.mjs ENTRY.ts [argument...]\n')
  process.exit(2)
}
const path = resolve(entry)
const file = await bundled(path)
process.argv = [process.argv[0] ?? 'node', path, ...args]
process.setSourceMapsEnabled(true)
await import(pathToFileURL(file).href)
