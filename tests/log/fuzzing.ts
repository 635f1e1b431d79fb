// npm run fuzz -- [--n 20000] [--seed 1]: that many spoilt files for every reader; ends with 1 where one was not refused as it must be.
import 'fake-indexeddb/auto'
import { fuzz } from './fuzz.ts'

const option = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? otherwise : Number(process.argv[at + 1])
}
const seed = option('seed', 1)
process.stdout.write(`seed ${seed}\n`)
let bad = 0
for (const { reader, files, refused, read, wrong } of await fuzz(option('n', 20_000), seed)) {
  process.stdout.write(`${reader}: ${files} files, ${refused} refused with their place, ${read} still sound, ${wrong.length} wrong\n`)
  for (const what of wrong.slice(0, 5)) process.stdout.write(`  ${what}\n`)
  bad += wrong.length
}
process.exitCode = bad > 0 ? 1 : 0
