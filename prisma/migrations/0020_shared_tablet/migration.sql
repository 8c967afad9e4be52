-- Who taps on a tablet that several people share says so with initials and a short code; only a hash of the code is kept.
alter table person
  add column initials text constraint person_initials_once unique,
  add column code_hash text,
  add constraint person_initials_shape check (initials ~ '^[A-Z]{2,4}$'),
  add constraint person_code_goes_with_initials check ((initials is null) = (code_hash is null));
