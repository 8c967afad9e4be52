import { SHELL_WORDS } from '#lib/words/shell.ts'

/** On pages without the shell: shown where the frame says that this is the demonstration. */
export function DemoLine() {
  return (
    <p className="demo-line demo-only">
      <b>{SHELL_WORDS.demo}</b>
    </p>
  )
}
