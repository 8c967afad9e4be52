-- Pictures of an animal, made anew from what was sent: without what a camera writes into them, one to look at and one for
-- the list. A picture that was taken back keeps its line and loses its bytes: it may show a person or an address.

create table attachment (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  kind text not null constraint attachment_kind_known check (kind in ('radiograph', 'photograph')),
  at timestamptz not null,
  words text not null,
  -- Of the bytes as they were sent: the same picture sent twice is one.
  digest text not null constraint attachment_digest_is_sha256 check (digest ~ '^[0-9a-f]{64}$'),
  taken_back_entry int references entry,
  taken_back_because text,
  constraint attachment_within_limits check (fits(words, 0, 200) and fits(taken_back_because, 1, 200)),
  constraint attachment_taken_back_says_why check ((taken_back_entry is null) = (taken_back_because is null))
);
create unique index attachment_sent_once on attachment (casualty_id, digest) where taken_back_entry is null;

create table attachment_image (
  attachment_id int not null references attachment,
  size text not null constraint attachment_image_size_known check (size in ('whole', 'thumbnail')),
  width int not null,
  height int not null,
  bytes bytea not null,
  primary key (attachment_id, size),
  constraint attachment_image_within_limits
    check (width between 1 and 4096 and height between 1 and 4096 and octet_length(bytes) between 1 and 6000000),
  -- RIFF....WEBP: nothing else is kept, whatever was sent.
  constraint attachment_image_is_webp
    check (substring(bytes from 1 for 4) = '\x52494646' and substring(bytes from 9 for 4) = '\x57454250')
);
alter table attachment_image alter column bytes set storage external;

create trigger attachment_is_never_emptied before truncate on attachment execute function append_only();

-- What was said of a picture stays; only its being taken back is written later, once, and takes its bytes away.
create function attachment_keeps_its_word() returns trigger language plpgsql as $$
begin
  if tg_op = 'DELETE' or old.taken_back_entry is not null or new.taken_back_entry is null
     or (new.id, new.entry_id, new.casualty_id, new.kind, new.at, new.words, new.digest)
        is distinct from (old.id, old.entry_id, old.casualty_id, old.kind, old.at, old.words, old.digest) then
    raise exception 'attachment stays as it was written' using errcode = '23514', constraint = 'attachment_is_append_only';
  end if;
  delete from attachment_image where attachment_id = new.id;
  return new;
end $$;
create trigger attachment_is_append_only before update or delete on attachment
  for each row execute function attachment_keeps_its_word();
