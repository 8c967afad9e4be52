declare global {
  namespace NodeJS {
    interface ProcessEnv {
      readonly NEXT_RUNTIME?: 'nodejs' | 'edge'
    }
  }
}

/** Next calls this once as a server process begins. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { startBackground } = await import('#lib/web/background.ts')
  startBackground()
}
