/**
 * What to run before each commit: lint, what nobody uses, types, unit and architecture tests at once, with the time each took.
 */
import { spawn } from 'node:child_process'

const SCRIPTS = ['lint', 'unused', 'types', 'unit']

/** @param {string} script @returns {Promise<{ script: string, ok: boolean, said: string, time: string }>} */
function runScript(script) {
  const since = performance.now()
  return new Promise(resolve => {
    const child = spawn('npm', ['run', '--silent', script], { stdio: ['ignore', 'pipe', 'pipe'] })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', text => (said += text))
    child.on('close', code => {
      const time = `${((performance.now() - since) / 1000).toFixed(1)} s`
      resolve({ script, ok: code === 0, said, time })
    })
  })
}

const since = performance.now()
const results = await Promise.all(SCRIPTS.map(runScript))
for (const { script, ok, said, time } of results) {
  if (!ok) console.log(`\n${said.trimEnd()}\n`)
  console.log(`${script.padEnd(6)} ${ok ? 'holds' : 'fails'}  ${time}`)
}
console.log(`check took ${((performance.now() - since) / 1000).toFixed(1)} s`)
process.exitCode = results.every(result => result.ok) ? 0 : 1
