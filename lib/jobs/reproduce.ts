/**
 * `npm run reproduce -- <run> [stage]`: learns a run again and says whether it is the same; exits with 1 when it is not.
 */
import { disconnect } from '#lib/db/client.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { reproduce } from '#lib/service/reproduce.ts'
import { NO_SUCH_RUN, REPRODUCE_USAGE, reproducedWords } from '#lib/words/reproduced.ts'

const [run, key] = process.argv.slice(2)

async function main(): Promise<void> {
  if (run === undefined || !/^[1-9]\d{0,8}$/.test(run)) return end(REPRODUCE_USAGE, 2)
  try {
    const facts = await reproduce(Number(run), key)
    const isSame = facts.otherKeys.length === 0 && facts.isDigestSame !== false
    end(reproducedWords(facts).join('\n'), isSame ? 0 : 1)
  } catch (thrown) {
    if (!isFailure(thrown) || thrown.code !== 'not-found') throw thrown
    end(NO_SUCH_RUN, 2)
  }
}

function end(words: string, code: number): void {
  process.stdout.write(`${words}\n`)
  process.exitCode = code
}

await main()
await disconnect()
