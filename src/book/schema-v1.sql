-- Hingepin service book, version 1.  One file = one stable.
--
-- Law of the book
--   1. A FACT row is inserted once. Its only column that ever changes is `live`.
--      The authorizer in law.c denies every other UPDATE and every DELETE on fact
--      tables, and the triggers at the end of this file say the same to any other
--      program that opens the book: the rule is code, not habit.
--   2. A correction is a new row whose `replaces` names the old one; a withdrawal
--      is such a row with void = 1, and live = 0 from the start. Never UNIQUE(replaces): after a merge two rows
--      may replace the same one; that is a contradiction to report, not an error.
--   3. id = 42 bit ms since 2020-01-01 UTC << 21 | 21 random bits, then
--      max(that, last id in the book + 1): 63 bit, sorted by entry, safe against
--      clock steps and bulk import; `replaces` is always smaller than the id. The id IS the entry time; no second column for it.
--      Printed everywhere outside the book as a string.
--   4. `at`  = instant, ms UTC, when the thing happened, NULL if only the day is known.
--      `day` = the keeper's own civil date, 'YYYY-MM-DD'; all day-clocks count it.
--   5. Values are in the quantity's canonical unit (docs/formats: s, m, kg, N.m,
--      V, ohm, m2/s, degC, ...); `typed` keeps what the person typed ('160 F').
--   6. Tables under DERIVED can be dropped and rebuilt from facts at any time;
--      `hingepin verify` does so in memory and compares.
--   7. NULL means unknown, never zero.
--   8. A `thing` is a vehicle, a part or a place.
--   9. Within a day, two events that both have a time go by it; else fittings come
--      first, then outings, then work.

PRAGMA application_id = 0x48706E62;      -- 'Hpnb'
PRAGMA user_version   = 1;

-- ---------------------------------------------------------------- the book ---
CREATE TABLE book (                       -- exactly one row
  one        INTEGER PRIMARY KEY CHECK (one = 1),
  uuid       TEXT NOT NULL,               -- of the stable; merge refuses another
  copy       TEXT NOT NULL,               -- of this copy of the file
  generation INTEGER NOT NULL             -- +1 in every writing transaction
) STRICT;

CREATE TABLE source (                     -- XML as used, for ever
  sha  BLOB PRIMARY KEY CHECK (length(sha) = 32),
  room TEXT NOT NULL CHECK (room IN ('procedure','chassis','kinds','rules')),
  code TEXT NOT NULL,                     -- its id attribute
  xml  BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE kept (                       -- the newest copy made of this book; no fact
  one  INTEGER PRIMARY KEY CHECK (one = 1),
  at   INTEGER NOT NULL,
  path TEXT NOT NULL
) STRICT;

-- ------------------------------------------------- things (identity only) ---
CREATE TABLE vehicle (
  id      INTEGER PRIMARY KEY,
  chassis BLOB NOT NULL REFERENCES source
) STRICT;

CREATE TABLE place (                      -- a position; copied from the chassis
  id      INTEGER PRIMARY KEY,            -- text, or added by the keeper
  vehicle INTEGER NOT NULL REFERENCES vehicle,
  code    TEXT NOT NULL,                  -- 'hub.front.left.outer'
  kind    TEXT NOT NULL,                  -- part kind that belongs here
  carrier INTEGER REFERENCES place,       -- motor bearings sit in the motor: they
  UNIQUE (vehicle, code)                  -- travel with the part at the carrier
) STRICT;                                 -- label, x, y, class, pair: in the chassis text

CREATE TABLE part (
  id   INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,                     -- bearing, diff, shock, pack, tyre set, ...
  made_from INTEGER REFERENCES stock      -- the stock movement that turned into it;
                                          -- use before we knew it: traits used.seconds, used.runs …
) STRICT;

CREATE TABLE supply (                     -- counted or measured stock line
  id   INTEGER PRIMARY KEY,
  kind TEXT NOT NULL, size TEXT, name TEXT NOT NULL,
  unit TEXT NOT NULL                      -- 'piece','ml','g'
) STRICT;

-- ------------------------------------------------------------------ facts ---
CREATE TABLE trait (                      -- anything said of a thing: name, state
  id INTEGER PRIMARY KEY,                 -- (in use, laid up, for sale, sold), size,
  thing INTEGER NOT NULL,                 -- fluid, spring, toe, least stock, way ...
  code TEXT NOT NULL,                     -- = set-up facts and spec values in one
  day TEXT NOT NULL, at INTEGER,
  value REAL, text TEXT, typed TEXT,
  origin TEXT NOT NULL CHECK (origin IN ('default','maker','owner','measured')),
  answer INTEGER REFERENCES answer,       -- where a walk asked for it (undo)
  person TEXT, replaces INTEGER REFERENCES trait CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX trait_of ON trait (thing, code, day, at, id) WHERE live;
CREATE INDEX trait_answer ON trait (answer) WHERE live AND answer IS NOT NULL;
CREATE INDEX trait_size ON trait (text, thing) WHERE live AND code = 'size';

CREATE TABLE fitting (                    -- a MOVE: where the part is from now on
  id INTEGER PRIMARY KEY,                 -- (the period ends at its next move)
  part INTEGER NOT NULL REFERENCES part,
  place INTEGER REFERENCES place,         -- NULL = not on a vehicle, then:
  shelf TEXT CHECK (shelf IN ('shelf','bin','sold','lost')),
  inside INTEGER REFERENCES part,         -- off the car, but still in this part
  day TEXT NOT NULL, at INTEGER,
  answer INTEGER REFERENCES answer,       -- where a walk moved it (undo)
  person TEXT, replaces INTEGER REFERENCES fitting CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void)),
  CHECK ((place IS NULL) <> (shelf IS NULL))
) STRICT;
CREATE INDEX fitting_of ON fitting (part, day, at, id) WHERE live;
CREATE INDEX fitting_answer ON fitting (answer) WHERE live AND answer IS NOT NULL;
CREATE INDEX fitting_at ON fitting (place, day, id) WHERE live AND place IS NOT NULL;

CREATE TABLE outing (
  id INTEGER PRIMARY KEY,
  vehicle INTEGER NOT NULL REFERENCES vehicle,
  day TEXT NOT NULL, at INTEGER,
  seconds REAL CHECK (seconds >= 0),      -- NULL: ran, time not known
  runs REAL CHECK (runs >= 0),            -- packs or tanks
  litres REAL CHECK (litres >= 0),
  surface TEXT, dirt TEXT,
  water TEXT CHECK (water IN ('none','damp','splashed','soaked','submerged')),
  salt INTEGER, knocks INTEGER, ambient REAL,
  origin TEXT,                            -- hash of an imported row: re-import known
  note TEXT,
  person TEXT, replaces INTEGER REFERENCES outing CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX outing_of ON outing (vehicle, day, id) WHERE live;
CREATE UNIQUE INDEX outing_origin ON outing (origin) WHERE origin IS NOT NULL AND live;

CREATE TABLE outing_part (                -- what changes from run to run: packs,
  outing INTEGER NOT NULL REFERENCES outing, -- tyre sets; not fitted, but used
  part   INTEGER NOT NULL REFERENCES part,
  runs   REAL, seconds REAL,              -- NULL: used, how much not known
  PRIMARY KEY (outing, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX outing_part_of ON outing_part (part, outing);

CREATE TABLE inspection (                 -- begun; its end is a sign_off
  id INTEGER PRIMARY KEY,
  vehicle INTEGER NOT NULL REFERENCES vehicle,
  plan TEXT NOT NULL,                     -- JSON: procedure sha and block order as walked
  lang TEXT NOT NULL,                     -- language shown
  day TEXT NOT NULL, person TEXT
) STRICT;
CREATE INDEX inspection_of ON inspection (vehicle, id);

CREATE TABLE walk_plan (                  -- the order from here on, when re-reckoned
  id INTEGER PRIMARY KEY,
  inspection INTEGER NOT NULL REFERENCES inspection,
  plan TEXT NOT NULL
) STRICT;
CREATE INDEX walk_plan_of ON walk_plan (inspection, id);

CREATE TABLE draft (                      -- laps and typed text until answered; not a fact
  inspection INTEGER PRIMARY KEY REFERENCES inspection,
  state TEXT NOT NULL
) STRICT;

CREATE TABLE sign_off (
  id INTEGER PRIMARY KEY,
  inspection INTEGER NOT NULL REFERENCES inspection, -- two after a merge: report
  verdict TEXT NOT NULL CHECK (verdict IN ('signed','abandoned')),
  day TEXT NOT NULL, person TEXT NOT NULL
) STRICT;
CREATE INDEX sign_off_of ON sign_off (inspection);

CREATE TABLE answer (                     -- the walk's state is the replay of these
  id INTEGER PRIMARY KEY,
  inspection INTEGER NOT NULL REFERENCES inspection,
  step TEXT NOT NULL,                     -- 'bearings/grade', 'off/motor', 'on/motor', 'way/stop'
  place INTEGER REFERENCES place,         -- asked here ...
  part INTEGER REFERENCES part,           -- ... of this part, then fitted
  phase TEXT NOT NULL CHECK (phase IN ('found','left','only')),
  outcome TEXT NOT NULL
    CHECK (outcome IN ('pass','watch','fail','not-checked','does-not-apply','done')), -- done: taking off, refitting, waits, ways
  unsafe INTEGER NOT NULL DEFAULT 0,
  detail TEXT,                            -- grade id, '11/12', way, reason
  note TEXT, person TEXT,
  replaces INTEGER REFERENCES answer CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void)),
  CHECK (unsafe = 0 OR outcome = 'fail'),
  CHECK (outcome <> 'not-checked' OR detail IS NOT NULL)
) STRICT;
CREATE INDEX answer_of ON answer (inspection, id);
CREATE INDEX answer_part ON answer (part, id) WHERE live AND part IS NOT NULL;
CREATE INDEX answer_tray ON answer (inspection, step, outcome, live)
  WHERE live AND (step GLOB 'off/*' OR step GLOB 'on/*');

CREATE TABLE reading (                    -- on an answer, an outing, or by itself
  id INTEGER PRIMARY KEY,
  thing INTEGER NOT NULL,                 -- vehicle or part
  place INTEGER REFERENCES place,
  quantity TEXT NOT NULL, value REAL NOT NULL, typed TEXT NOT NULL,
  repeats TEXT,                           -- JSON array, canonical unit; value = take of it
  method TEXT, conditions TEXT,           -- sorted 'ambient=21;wheels=off': only like with like
  phase TEXT CHECK (phase IN ('found','left')),
  answer INTEGER REFERENCES answer, outing INTEGER REFERENCES outing, work INTEGER REFERENCES work,
  day TEXT NOT NULL, at INTEGER, person TEXT,
  replaces INTEGER REFERENCES reading CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX reading_of ON reading (thing, quantity, day, id) WHERE live;
CREATE INDEX reading_answer ON reading (answer) WHERE live AND answer IS NOT NULL;
CREATE INDEX reading_outing ON reading (outing) WHERE live AND outing IS NOT NULL;

CREATE TABLE work (
  id INTEGER PRIMARY KEY,
  thing INTEGER NOT NULL,                 -- part, or vehicle
  place INTEGER REFERENCES place,
  deed TEXT NOT NULL,                     -- oiled, greased, cleaned, filled, replaced, opened, refitted ...
  answer INTEGER REFERENCES answer,
  told INTEGER NOT NULL DEFAULT 0, sure TEXT, -- back-filled by the keeper, and how sure
  note TEXT, cost INTEGER, currency TEXT, -- minor units
  day TEXT NOT NULL, at INTEGER, person TEXT,
  replaces INTEGER REFERENCES work CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX work_of ON work (thing, deed, day, id) WHERE live;
CREATE INDEX work_answer ON work (answer) WHERE live AND answer IS NOT NULL;

CREATE TABLE owed (                       -- a debt, until a settling or void row
  id INTEGER PRIMARY KEY,
  vehicle INTEGER NOT NULL REFERENCES vehicle,
  place INTEGER REFERENCES place,
  what TEXT NOT NULL,                     -- refit, mesh, threadlock, end-points, cure ...
  ready_at INTEGER,                       -- cure or drying: cannot be settled before
  due_at INTEGER,                         -- an event's job: should be done by
  cause INTEGER NOT NULL,                 -- answer, work or outing
  settles INTEGER REFERENCES owed,        -- this row settles that debt
  day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES owed CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX owed_of ON owed (vehicle, id) WHERE live;
CREATE INDEX owed_cause ON owed (cause) WHERE live;
CREATE INDEX owed_settled ON owed (settles) WHERE live AND settles IS NOT NULL;

CREATE TABLE finding (                    -- its life: one row for each event
  id INTEGER PRIMARY KEY,
  opens INTEGER REFERENCES finding,       -- NULL on the opening row itself
  event TEXT NOT NULL CHECK (event IN
    ('opened','regraded','worked','closed','accepted','withdrawn')),
  vehicle INTEGER NOT NULL REFERENCES vehicle,
  place INTEGER REFERENCES place, part INTEGER REFERENCES part,
  gravity TEXT CHECK (gravity IN ('watch','fail','unsafe')), -- NULL on 'closed', 'withdrawn'
  cause INTEGER,                          -- answer, work or outing
  note TEXT, day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES finding CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void)),
  CHECK ((event = 'opened') = (opens IS NULL)),
  CHECK (event <> 'accepted' OR gravity = 'watch')
) STRICT;
CREATE INDEX finding_open ON finding (vehicle, id) WHERE live AND opens IS NULL;
CREATE INDEX finding_cause ON finding (cause) WHERE live AND cause IS NOT NULL;
CREATE INDEX finding_part ON finding (part, id) WHERE live AND opens IS NULL AND part IS NOT NULL;
CREATE INDEX finding_life ON finding (opens, id) WHERE live AND opens IS NOT NULL;

CREATE TABLE own_rule (                   -- the keeper's change of a shipped rule
  id INTEGER PRIMARY KEY,
  rule TEXT NOT NULL,                     -- rule id in the XML
  thing INTEGER,                          -- NULL whole stable, or vehicle, or part
  clock TEXT NOT NULL CHECK (clock IN ('seconds','runs','outings','days','litres','after')),
  every REAL CHECK (every > 0),           -- NULL = paused
  origin TEXT NOT NULL CHECK (origin IN ('owner','maker','learned')),
  day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES own_rule CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX own_rule_of ON own_rule (rule, thing) WHERE live;

CREATE TABLE own_limit (                  -- the keeper's change of a limit
  id INTEGER PRIMARY KEY,
  step TEXT NOT NULL, thing INTEGER,      -- as own_rule
  band TEXT NOT NULL,                     -- JSON: pass and watch, nested
  origin TEXT NOT NULL CHECK (origin IN ('owner','maker')),
  day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES own_limit CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX own_limit_of ON own_limit (step, thing) WHERE live;

CREATE TABLE stock (                      -- movements, never a counter: merges add up
  id INTEGER PRIMARY KEY,
  supply INTEGER NOT NULL REFERENCES supply,
  amount REAL NOT NULL,                   -- + bought or counted in, - used
  cause INTEGER,                          -- work or fitting that used it
  cost INTEGER, currency TEXT, day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES stock CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX stock_of ON stock (supply, id) WHERE live;

CREATE TABLE photo (
  id INTEGER PRIMARY KEY,
  of INTEGER NOT NULL,                    -- any id of this book
  sha BLOB NOT NULL REFERENCES image, caption TEXT, day TEXT NOT NULL, person TEXT,
  replaces INTEGER REFERENCES photo CHECK (replaces < id),
  void INTEGER NOT NULL DEFAULT 0 CHECK (void IN (0, replaces IS NOT NULL)),
  live INTEGER NOT NULL DEFAULT 1 CHECK (live IN (0, 1 - void))
) STRICT;
CREATE INDEX photo_of ON photo (of) WHERE live;
CREATE TABLE image (                      -- upright JPEG, <= 1600 px, no EXIF (no GPS)
  sha BLOB PRIMARY KEY CHECK (length(sha) = 32), jpeg BLOB NOT NULL
) STRICT;

-- ---------------------------------------------------------------- derived ---
-- An outing touches ONE meter row and no part rows: a part's clock is
--   base + its vehicle's meter, and what is left on a rule is
--   every - (base + meter - mark).
CREATE TABLE meter (                      -- per vehicle, totals now
  vehicle INTEGER PRIMARY KEY,
  seconds REAL NOT NULL, runs REAL NOT NULL, outings REAL NOT NULL, litres REAL NOT NULL,
  first_day TEXT, last_day TEXT
) STRICT;
CREATE TABLE standing (                   -- per part, where it is now
  part INTEGER PRIMARY KEY,
  kind TEXT NOT NULL, vehicle INTEGER, place INTEGER,
  fitting INTEGER,                        -- the move that put it there; NULL: never moved
  seconds REAL, runs REAL, outings REAL, litres REAL   -- base (own past - meter then)
) STRICT;
CREATE INDEX standing_on ON standing (vehicle) WHERE vehicle IS NOT NULL;
CREATE TABLE mark (                       -- per thing and deed or procedure, last time
  part INTEGER NOT NULL, deed TEXT NOT NULL, day TEXT NOT NULL,  -- 'oiled' or 'procedure:bearings'
  seconds REAL, runs REAL, outings REAL, litres REAL,  -- the part's clock then
  PRIMARY KEY (part, deed)
) STRICT, WITHOUT ROWID;

-- -------------------------------------------------------------------- law ---
-- A replacing row retires the row it names, before it comes in itself (an
-- imported outing keeps its origin through a correction).
CREATE TRIGGER trait_live BEFORE INSERT ON trait WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE trait SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER fitting_live BEFORE INSERT ON fitting WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE fitting SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER outing_live BEFORE INSERT ON outing WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE outing SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER answer_live BEFORE INSERT ON answer WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE answer SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER reading_live BEFORE INSERT ON reading WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE reading SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER work_live BEFORE INSERT ON work WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE work SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER owed_live BEFORE INSERT ON owed WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE owed SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER finding_live BEFORE INSERT ON finding WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE finding SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER own_rule_live BEFORE INSERT ON own_rule WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE own_rule SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER own_limit_live BEFORE INSERT ON own_limit WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE own_limit SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER stock_live BEFORE INSERT ON stock WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE stock SET live = 0 WHERE id = NEW.replaces; END;
CREATE TRIGGER photo_live BEFORE INSERT ON photo WHEN NEW.replaces IS NOT NULL BEGIN
  UPDATE photo SET live = 0 WHERE id = NEW.replaces; END;

-- Nothing else about a fact ever changes, and no fact goes away.
CREATE TRIGGER source_fixed BEFORE UPDATE OF sha, room, code, xml ON source BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of source is never rewritten'); END;
CREATE TRIGGER source_stays BEFORE DELETE ON source BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of source is never deleted'); END;
CREATE TRIGGER vehicle_fixed BEFORE UPDATE OF id, chassis ON vehicle BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of vehicle is never rewritten'); END;
CREATE TRIGGER vehicle_stays BEFORE DELETE ON vehicle BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of vehicle is never deleted'); END;
CREATE TRIGGER place_fixed BEFORE UPDATE OF id, vehicle, code, kind, carrier ON place
  BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of place is never rewritten'); END;
CREATE TRIGGER place_stays BEFORE DELETE ON place BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of place is never deleted'); END;
CREATE TRIGGER part_fixed BEFORE UPDATE OF id, kind, made_from ON part BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of part is never rewritten'); END;
CREATE TRIGGER part_stays BEFORE DELETE ON part BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of part is never deleted'); END;
CREATE TRIGGER supply_fixed BEFORE UPDATE OF id, kind, size, name, unit ON supply BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of supply is never rewritten'); END;
CREATE TRIGGER supply_stays BEFORE DELETE ON supply BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of supply is never deleted'); END;
CREATE TRIGGER trait_fixed BEFORE UPDATE OF id, thing, code, day, at, value, text,
  typed, origin, answer, person, replaces, void ON trait BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of trait is never rewritten'); END;
CREATE TRIGGER trait_stays BEFORE DELETE ON trait BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of trait is never deleted'); END;
CREATE TRIGGER fitting_fixed BEFORE UPDATE OF id, part, place, shelf, inside, day, at,
  answer, person, replaces, void ON fitting BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of fitting is never rewritten'); END;
CREATE TRIGGER fitting_stays BEFORE DELETE ON fitting BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of fitting is never deleted'); END;
CREATE TRIGGER outing_fixed BEFORE UPDATE OF id, vehicle, day, at, seconds, runs,
  litres, surface, dirt, water, salt, knocks, ambient, origin, note, person, replaces,
  void ON outing BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of outing is never rewritten'); END;
CREATE TRIGGER outing_stays BEFORE DELETE ON outing BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of outing is never deleted'); END;
CREATE TRIGGER outing_part_fixed BEFORE UPDATE OF outing, part, runs, seconds ON
  outing_part BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of outing_part is never rewritten'); END;
CREATE TRIGGER outing_part_stays BEFORE DELETE ON outing_part BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of outing_part is never deleted'); END;
CREATE TRIGGER inspection_fixed BEFORE UPDATE OF id, vehicle, plan, lang, day, person ON
  inspection BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of inspection is never rewritten'); END;
CREATE TRIGGER inspection_stays BEFORE DELETE ON inspection BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of inspection is never deleted'); END;
CREATE TRIGGER walk_plan_fixed BEFORE UPDATE OF id, inspection, plan ON walk_plan BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of walk_plan is never rewritten'); END;
CREATE TRIGGER walk_plan_stays BEFORE DELETE ON walk_plan BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of walk_plan is never deleted'); END;
CREATE TRIGGER sign_off_fixed BEFORE UPDATE OF id, inspection, verdict, day, person ON
  sign_off BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of sign_off is never rewritten'); END;
CREATE TRIGGER sign_off_stays BEFORE DELETE ON sign_off BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of sign_off is never deleted'); END;
CREATE TRIGGER answer_fixed BEFORE UPDATE OF id, inspection, step, place, part, phase,
  outcome, unsafe, detail, note, person, replaces, void ON answer BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of answer is never rewritten'); END;
CREATE TRIGGER answer_stays BEFORE DELETE ON answer BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of answer is never deleted'); END;
CREATE TRIGGER reading_fixed BEFORE UPDATE OF id, thing, place, quantity, value, typed,
  repeats, method, conditions, phase, answer, outing, work, day, at, person, replaces,
  void ON reading BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of reading is never rewritten'); END;
CREATE TRIGGER reading_stays BEFORE DELETE ON reading BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of reading is never deleted'); END;
CREATE TRIGGER work_fixed BEFORE UPDATE OF id, thing, place, deed, answer, told, sure,
  note, cost, currency, day, at, person, replaces, void ON work BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of work is never rewritten'); END;
CREATE TRIGGER work_stays BEFORE DELETE ON work BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of work is never deleted'); END;
CREATE TRIGGER owed_fixed BEFORE UPDATE OF id, vehicle, place, what, ready_at, due_at,
  cause, settles, day, person, replaces, void ON owed BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of owed is never rewritten'); END;
CREATE TRIGGER owed_stays BEFORE DELETE ON owed BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of owed is never deleted'); END;
CREATE TRIGGER finding_fixed BEFORE UPDATE OF id, opens, event, vehicle, place, part,
  gravity, cause, note, day, person, replaces, void ON finding BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of finding is never rewritten'); END;
CREATE TRIGGER finding_stays BEFORE DELETE ON finding BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of finding is never deleted'); END;
CREATE TRIGGER own_rule_fixed BEFORE UPDATE OF id, rule, thing, clock, every, origin,
  day, person, replaces, void ON own_rule BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of own_rule is never rewritten'); END;
CREATE TRIGGER own_rule_stays BEFORE DELETE ON own_rule BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of own_rule is never deleted'); END;
CREATE TRIGGER own_limit_fixed BEFORE UPDATE OF id, step, thing, band, origin, day,
  person, replaces, void ON own_limit BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of own_limit is never rewritten'); END;
CREATE TRIGGER own_limit_stays BEFORE DELETE ON own_limit BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of own_limit is never deleted'); END;
CREATE TRIGGER stock_fixed BEFORE UPDATE OF id, supply, amount, cause, cost, currency,
  day, person, replaces, void ON stock BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of stock is never rewritten'); END;
CREATE TRIGGER stock_stays BEFORE DELETE ON stock BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of stock is never deleted'); END;
CREATE TRIGGER photo_fixed BEFORE UPDATE OF id, of, sha, caption, day, person, replaces,
  void ON photo BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of photo is never rewritten'); END;
CREATE TRIGGER photo_stays BEFORE DELETE ON photo BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of photo is never deleted'); END;
CREATE TRIGGER image_fixed BEFORE UPDATE OF sha, jpeg ON image BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of image is never rewritten'); END;
CREATE TRIGGER image_stays BEFORE DELETE ON image BEGIN
  SELECT RAISE (ABORT, 'law of the book: a row of image is never deleted'); END;
