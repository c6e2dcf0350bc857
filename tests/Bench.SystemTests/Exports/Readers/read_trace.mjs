// Sums over a trace, as hyparquet reads it.
import { pathToFileURL } from 'node:url'
import { join } from 'node:path'

const [modules, file] = process.argv.slice(2)
const { asyncBufferFromFile, parquetReadObjects } = await import(pathToFileURL(join(modules, 'hyparquet/src/node.js')))
const { compressors } = await import(pathToFileURL(join(modules, 'hyparquet-compressors/src/index.js')))
const rows = await parquetReadObjects({ file: await asyncBufferFromFile(file), compressors })
const sum = values => values.reduce((a, b) => a + b, 0)
const count = rows.map(r => r.count).filter(c => c !== null && c !== undefined)
const current = rows.map(r => r.current_a).filter(c => c !== null && c !== undefined)
for (const value of [rows.length, sum(rows.map(r => r.time_s)), count.length, sum(count), current.length, sum(current)]) {
  console.log(value.toFixed(6))
}
