/** For each of what whole.ts counts, the statement that leaves one: what a torn transaction would look like. */
import type { HALF } from './whole.ts'

const newest = '(select max(casualty_id) from whereabouts where until is null)'
const held = `(select max(c.arrival_id) from claim h join casualty c on c.id = h.casualty_id
  join decision d on d.arrival_id = c.arrival_id where h.kind = 'hold')`

export const PLANTS: { readonly [name in keyof typeof HALF]: string } = {
  'arrival without casualty': 'insert into arrival (at) values (now())',
  'arrival of a call without its decision':
    'insert into arrival (at, call_id) select now(), max(id) from call',
  'casualty without keeper': `delete from whereabouts where casualty_id = ${newest}`,
  'casualty without plan': `delete from casualty_plan where casualty_id = ${newest}`,
  'casualty never identified': `delete from identification where casualty_id = ${newest}`,
  'plan without stages': `delete from casualty_stage where casualty_plan_id =
    (select max(id) from casualty_plan where casualty_id = ${newest})`,
  'hold without decision': `delete from decision where arrival_id = ${held}`,
  'placed by a decision and not held': `delete from claim where kind = 'hold' and casualty_id in
    (select id from casualty where arrival_id = ${held})`,
  'entry without revision': 'insert into entry (entered_at) values (now())',
  'entry without audit row': "insert into entry (entered_at) values (now() - interval '17 seconds')",
  'call closed without decision': `insert into call (opened_at, state, closed_at) values (now(), 'closed', now())`,
  'decision on a call still open': `update call set state = 'open', closed_at = null
    where id = (select max(call_id) from decision)`,
  'call-back on a call not put aside': `with made as (insert into call (opened_at) values (now()) returning id)
    insert into call_back (call_id, due_at, owner_id, what)
    select made.id, now(), (select min(id) from person), 'planted' from made`,
  'counter behind the entries': 'update network set revision = 0',
  'whereabouts that no fact gives': `update whereabouts set since = since - interval '1 second'
    where casualty_id = ${newest}`,
  'fact that no whereabouts show': `delete from whereabouts where casualty_id = ${newest}`,
}
