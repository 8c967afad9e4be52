-- How far a worker's job has come, for a page to show. Gone once the job is done; of a worker that was killed the last word
-- stays, and says when it was.
create table job_progress (
  job text primary key,
  begun_at timestamptz not null,
  told_at timestamptz not null,
  done int not null,
  out_of int not null,
  constraint job_progress_within_limits check (fits(job, 1, 40)),
  constraint job_progress_told_since_it_began check (told_at >= begun_at),
  constraint job_progress_done_of_all check (done between 0 and out_of)
);
