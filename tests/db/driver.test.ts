import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { recordMoved } from '#lib/service/record.ts'
import { addDriver, changeDriver, getDriver, listDrivers, switchDriver } from '#lib/service/setup/driver.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { driverTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (...roles: Role[]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: roles.map(role => ({ role })),
})
const manager = as('manager')
const coordinator = as('coordinator')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query("insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x')")
  client.release()
})

const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''} ${thrown.data?.['say'] ?? ''}`.trim(),
  )

describe('drivers', () => {
  it('are added, changed over what was read, and switched off', async () => {
    const id = await addDriver(manager, driverTyped, NOON)
    await changeDriver(manager, id, { ...driverTyped, area: 'Inland', version: '1' }, NOON)
    expect(await getDriver(coordinator, id)).toMatchObject({
      area: 'Inland',
      drivesAtNight: true,
      hours: [{ weekday: 1, opensMinute: 1020, closesMinute: 1320 }],
      version: 2,
    })
    expect(await refusal(changeDriver(manager, id, { ...driverTyped, version: '1' }, NOON))).toMatch(
      /^conflict/,
    )
    await switchDriver(manager, id, { version: '2', isActive: 'off' }, NOON)
    expect((await listDrivers(coordinator)).find(one => one.id === id)?.isActive).toBe(false)
  })

  it('are not switched off with an animal on the road', async () => {
    await recordMoved(coordinator, 3, { to: 'driver', driverId: '1' }, hours(1))
    expect(await refusal(switchDriver(manager, 1, { version: '1', isActive: 'off' }, hours(2)))).toMatch(
      /^rule driver-drives .*: test 3$/,
    )
  })

  it('are not added by a coordinator', async () => {
    expect(await refusal(addDriver(coordinator, driverTyped, NOON))).toMatch(/^forbidden/)
  })
})
