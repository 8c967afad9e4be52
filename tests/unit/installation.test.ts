/**
 * The small installation's description. No container engine runs it in the tests: its shape is read, and compared
 * with what the program reads from its surroundings.
 */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { z } from 'zod'

const read = (file: string): string =>
  readFileSync(fileURLToPath(new URL(`../../${file}`, import.meta.url)), 'utf8')

// Keys of the Compose specification that this file may use; a misspelt one is refused.
const service = z.strictObject({
  image: z.string().optional(),
  build: z.strictObject({ context: z.string(), target: z.string() }).optional(),
  restart: z.enum(['no', 'unless-stopped']),
  environment: z.record(z.string(), z.string()).optional(),
  volumes: z.array(z.string()).optional(),
  ports: z.array(z.string().regex(/^127\.0\.0\.1:\d+:\d+$/)).optional(),
  depends_on: z
    .record(
      z.string(),
      z.strictObject({ condition: z.enum(['service_healthy', 'service_completed_successfully']) }),
    )
    .optional(),
  healthcheck: z
    .strictObject({
      test: z.array(z.string()).min(2),
      interval: z.string(),
      timeout: z.string(),
      retries: z.number(),
      start_period: z.string(),
    })
    .optional(),
})

const compose = z
  .strictObject({
    name: z.literal('roostwright'),
    services: z.strictObject({ database: service, migrate: service, app: service, worker: service }),
    volumes: z.record(z.string(), z.null()),
  })
  .parse(parse(read('docker-compose.yml')))

const { database, migrate, app, worker } = compose.services
const dockerfile = read('Dockerfile')
const example = [...read('.env.example').matchAll(/^([A-Z_]+)=/gm)].map(match => match[1])

test('the database is PostgreSQL 18 with a named volume and a health check', () => {
  expect(database.image).toBe('postgres:18')
  expect(database.healthcheck?.test.join(' ')).toContain('pg_isready')
  expect(database.volumes?.map(volume => volume.split(':')[0])).toEqual(Object.keys(compose.volumes))
})

test('the program and its worker start once the database is well and migrated', () => {
  expect(migrate.depends_on).toEqual({ database: { condition: 'service_healthy' } })
  for (const { depends_on } of [app, worker]) {
    expect(depends_on).toEqual({
      database: { condition: 'service_healthy' },
      migrate: { condition: 'service_completed_successfully' },
    })
  }
})

test('the worker works on the program’s database, with what every process must be told, and comes back', () => {
  expect(worker.environment).toEqual({
    DATABASE_URL: app.environment?.['DATABASE_URL'],
    NEXTAUTH_SECRET: app.environment?.['NEXTAUTH_SECRET'],
    NEXTAUTH_URL: app.environment?.['NEXTAUTH_URL'],
  })
  expect(worker.restart).toBe('unless-stopped')
  const { scripts } = z
    .object({ scripts: z.record(z.string(), z.string()) })
    .parse(JSON.parse(read('package.json')))
  const command = dockerfile.match(/ AS worker[\s\S]*?CMD (\[.*\])/)?.[1] ?? '[]'
  expect(z.array(z.string()).parse(JSON.parse(command)).join(' ')).toBe(scripts['worker'])
})

test('each service is built from a stage that the Dockerfile has', () => {
  for (const built of [migrate, app, worker])
    expect(dockerfile).toMatch(new RegExp(` AS ${built.build?.target}$`, 'm'))
})

test('an installation is neither a demo nor a test', () => {
  expect(Object.keys(app.environment ?? {}).sort()).toEqual([
    'DATABASE_URL',
    'NEXTAUTH_SECRET',
    'NEXTAUTH_URL',
    'ROOSTWRIGHT_MAIL_FROM',
    'ROOSTWRIGHT_OIDC_CLIENT_ID',
    'ROOSTWRIGHT_OIDC_CLIENT_SECRET',
    'ROOSTWRIGHT_OIDC_ISSUER',
    'ROOSTWRIGHT_OIDC_NAME',
    'ROOSTWRIGHT_PROXIES',
    'ROOSTWRIGHT_SMTP_URL',
  ])
})

test('the example names every variable that the program and the installation read', () => {
  const parsed = [...read('lib/env.ts').matchAll(/^ {2}([A-Z_]+):/gm)].map(match => match[1])
  const asked = [...read('docker-compose.yml').matchAll(/\$\{([A-Z_]+):\?/g)].map(match => match[1])
  expect(parsed.length).toBeGreaterThan(5)
  expect([...new Set(example)].sort()).toEqual([...new Set([...parsed, ...asked])].sort())
})
