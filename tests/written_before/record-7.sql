BEGIN TRANSACTION;
CREATE TABLE "answer" (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL,
        revision INTEGER NOT NULL,
        kind TEXT NOT NULL CHECK (kind IN ('forecast', 'diagnosis', 'choice', 'verdict', 'log')),
        seed INTEGER NOT NULL,
        draws INTEGER NOT NULL,
        equations_version TEXT NOT NULL,
        at TEXT NOT NULL,
        answer TEXT NOT NULL,
        FOREIGN KEY (job, revision) REFERENCES revision (job, number)
    ) STRICT
    ;
CREATE TABLE applied_migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL) STRICT;
INSERT INTO "applied_migration" VALUES(1,'jobs, revisions and notes','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(2,'attachments and answers','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(3,'nothing is overwritten','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(4,'verdicts are kept','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(5,'what logs say is kept','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(6,'a revision says at which sitting it was saved','2026-11-30T11:31:27+00:00');
INSERT INTO "applied_migration" VALUES(7,'choices are kept','2026-11-30T11:31:27+00:00');
CREATE TABLE attachment (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL REFERENCES job (number),
        checksum TEXT NOT NULL CHECK (length(checksum) = 64),
        name TEXT NOT NULL,
        size INTEGER NOT NULL,
        at TEXT NOT NULL,
        UNIQUE (job, checksum)
    ) STRICT
    ;
CREATE TABLE job (number INTEGER PRIMARY KEY AUTOINCREMENT, opened TEXT NOT NULL) STRICT;
INSERT INTO "job" VALUES(1,'2026-11-30T11:31:27.922+00:00');
INSERT INTO "job" VALUES(2,'2026-11-30T11:31:29.170+00:00');
CREATE TABLE note (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        job INTEGER NOT NULL REFERENCES job (number),
        at TEXT NOT NULL,
        author TEXT NOT NULL,
        text TEXT NOT NULL
    ) STRICT
    ;
INSERT INTO "note" VALUES(1,1,'2026-11-30T11:31:28.766+00:00','','plan taken: replace the cap');
INSERT INTO "note" VALUES(2,1,'2026-11-30T11:31:28.823+00:00','M','plan taken: replace the fan clutch + drain, fill and bleed');
INSERT INTO "note" VALUES(3,1,'2026-11-30T11:31:28.862+00:00','','done: Replace the fan clutch.');
INSERT INTO "note" VALUES(4,1,'2026-11-30T11:31:28.934+00:00','','done: Leak test.');
INSERT INTO "note" VALUES(5,1,'2026-11-30T11:31:28.957+00:00','','not done after all: Leak test.');
INSERT INTO "note" VALUES(6,1,'2026-11-30T11:31:28.985+00:00','','after the work: farm gate: gauge 198 °F');
INSERT INTO "note" VALUES(7,1,'2026-11-30T11:31:29.043+00:00','','hums at idle');
CREATE TABLE revision (
        job INTEGER NOT NULL REFERENCES job (number),
        number INTEGER NOT NULL CHECK (number >= 1),
        parent INTEGER,
        at TEXT NOT NULL,
        author TEXT NOT NULL,
        note TEXT NOT NULL,
        title TEXT NOT NULL,
        complaint TEXT NOT NULL,
        state TEXT NOT NULL CHECK (state IN ('open', 'closed')),
        checksum TEXT NOT NULL CHECK (length(checksum) = 64),
        text TEXT NOT NULL, sitting TEXT NOT NULL DEFAULT '',
        PRIMARY KEY (job, number),
        FOREIGN KEY (job, parent) REFERENCES revision (job, number)
    ) STRICT
    ;
INSERT INTO "revision" VALUES(1,1,NULL,'2026-11-30T11:31:27.922+00:00','M','the built-in example','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','21b4418ce59e245d85e974dd7ed5085070322b2a246d9d32c9b1c71bedbea52f','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
','');
INSERT INTO "revision" VALUES(1,2,1,'2026-11-30T11:31:28.042+00:00','M','check: spin the fan, engine off, turns freely, hot, six turns','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','bd9a831ecdc01413db36b3d5eb0882b10d3e668dbb59fd8cdced7161d3962169','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
note = "hot, six turns"
','');
INSERT INTO "revision" VALUES(1,3,2,'2026-11-30T11:31:28.139+00:00','M','check: spin the fan, engine off, turns freely','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','7959fa61a18e859c1674339ee212bb5b1f12fe227c6807a95c716588e6f3c4b1','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
note = "hot, six turns"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
','');
INSERT INTO "revision" VALUES(1,4,3,'2026-11-30T11:31:28.356+00:00','','changed: water pump, none','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','834a152c65cde5bac702cb608f98607e55664f798dc1f2cd7cd5fae79cb526e1','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
note = "hot, six turns"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
[[changed]]
part = "water pump"
effect = "none"
','');
INSERT INTO "revision" VALUES(1,5,4,'2026-11-30T11:31:28.422+00:00','','history.after_work: head gasket, thermostat removed','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','8fcc936391ec491dd358925659d62a78327bd023510916d363db510c7c0e0a41','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"
after_work = ["head gasket", "thermostat removed"]

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
note = "hot, six turns"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
[[changed]]
part = "water pump"
effect = "none"
','');
INSERT INTO "revision" VALUES(1,6,5,'2026-11-30T11:31:28.593+00:00','','check 3 taken out','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','bae2927b1a488ebe094efe1ac04de075c822cc1ce9143f82dc0640cddf49351f','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"
after_work = ["head gasket", "thermostat removed"]

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
[[changed]]
part = "water pump"
effect = "none"
','');
INSERT INTO "revision" VALUES(1,7,6,'2026-11-30T11:31:28.729+00:00','','undone: back to revision 5','Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning','Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far.','open','8fcc936391ec491dd358925659d62a78327bd023510916d363db510c7c0e0a41','# The built-in example. Everything in it is invented.
format = "toptank-job-1"
units = "us"

[job]
title = "Orchard tour minibus, 1970s, 5.0 L V8, automatic, roof air conditioning"
complaint = """
Takes visitors up to the ridge farm on August afternoons. Fine along the river road. On the ridge road the needle
climbs past the mark, and at the farm gate it stays there while people get out. No puddle so far."""
invented = true
limit = "225 F"

[vehicle]
like = "minibus-1970s-v8-air"

[core]
face_width = "25 1/4 in"
face_height = "17 in"
rows = 3
fin_density = "11 fpi"
fin_kind = "louvered"
blocked_face = "5 %"

[fan]
diameter = "19 in"
belt_ratio = 1.15

[shroud]
present = true
tip_clearance = "3/4 in"

[cap]
pressure = { value = "15 psi", how = "plate" }

[thermostat]
starts_opening = { value = "180 F", how = "plate" }

[fill]
concentrate = "50/50"

[engine]
displacement = { value = "5.0 L", how = "plate" }

[body]
mass = { value = "7400 lb", how = "plate", spread = "5 %" }

[fit] # tape, folded card and caliper; what was not measured is left out
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 1/4 in"
saddle_width = "2 5/8 in"
saddle_rubber = "1/4 in"
width_between = "29 1/4 in"
height_between = "22 in"
shroud_mount = "support"
shroud_to_core = "5/16 in"
shroud_depth = "3 1/4 in"
blade_depth = "2 1/2 in"
blade_in_shroud = "1 1/4 in"
blade_to_engine = "1 1/8 in"
engine_fore_aft = "3/8 in"
engine_up_down = "3/8 in"
pulley_nose_to_core = "3 1/2 in"
hood_height = "24 1/2 in"
top_hose_side = "right"
top_hose_height = "19 in"
top_hose_diameter = "1 1/2 in"
bottom_hose_side = "left"
bottom_hose_height = "2 in"
bottom_hose_diameter = "1 3/4 in"
cap_reach = "3/4 in"
cap_cam = "large"
cap_kind = "closed"
cap_upper_gasket = true
cap_vacuum_valve = true
cooler_thread = "5/16 flare"
hose_route = "the top hose passes the ignition coil"

[[offer]] # as its maker prints it
name = "welded aluminium, two rows of 1 in"
parts = "radiator, two cooler fittings"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" }
passes = { value = 1, how = "plate" }
tank_width = { value = "2 1/4 in", how = "plate" }
overall_width = { value = "28 1/2 in", how = "plate" }
overall_height = { value = "21 in", how = "plate" }
cap_height = { value = "22 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
top_port_height = { value = "18 3/4 in", how = "plate" }
top_port_diameter = { value = "1 1/2 in", how = "plate" }
bottom_port_side = { value = "left", how = "plate" }
bottom_port_height = { value = "2 in", how = "plate" }
bottom_port_diameter = { value = "1 3/4 in", how = "plate" }
neck_depth = { value = "1 in", how = "plate" }
neck_cam = { value = "large", how = "plate" }
cooler_fittings = { value = true, how = "plate" }
weight = { value = "34 lb", how = "plate" }

[history]
onset = "crept up" # over two summers
distance = "148000 mi"
after_work = ["head gasket", "thermostat removed"]

[[duty]]
name = "river road"
ambient = "88 F"
altitude = "900 ft"
speed = "50 mph"
air_conditioning = true

[[duty]]
name = "ridge climb"
ambient = "92 F"
altitude = "1600 ft"
speed = "35 mph"
grade = "5 %"
air_conditioning = true

[[duty]]
name = "farm gate"
ambient = "92 F"
altitude = "2300 ft"
speed = "0 mph"
air_conditioning = true
in_gear = false

[[reading]]
duty = "river road"
words = "fine"
gauge = "195 F"

[[reading]]
duty = "ridge climb"
words = "hot"
gauge = "220 F"

[[reading]]
duty = "farm gate"
words = "warm"
gauge = "212 F"

[[check]]
name = "how coolant is lost"
outcome = "none lost"

[[check]]
name = "roar of the fan when hot"
outcome = "never roars"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
note = "hot, six turns"
[[check]]
name = "spin the fan, engine off"
outcome = "turns freely"
[[changed]]
part = "water pump"
effect = "none"
','');
INSERT INTO "revision" VALUES(2,1,NULL,'2026-11-30T11:31:29.170+00:00','','','1970s half-ton pickup, 5.0 L V8, automatic, air conditioning','','open','cf9646d039857ecc551826179542238e47c769be599ab9b33b7e6e100161003e','format = "toptank-job-1"
units = "metric"  # what a bare number means: us or metric

[job]
title = "1970s half-ton pickup, 5.0 L V8, automatic, air conditioning"  # change it to this vehicle
complaint = ""  # the driver''s own words
limit = "107 C"  # the customer wants to stay under this

[vehicle]
like = "pickup-1970s-v8-air"  # fills in whatever is deleted below

# What was seen: a figure of the gauge, or words = fine, warm, hot or boiled.
# [[reading]]
# duty = "usual"
# gauge = "90 C"

# A line marked `assumed` is a guess with a spread (one standard deviation).
# Measured it? Write the plain value instead: face_width = "26 in".
# Read it off a plate or a handbook? { value = "15 psi", how = "plate" }

[core]
# width of the finned face (typical 600 mm). tape across the fins, tanks and side straps not counted
face_width = { value = "660 mm", how = "assumed", spread = "38 mm" }
# height of the finned face (typical 430 mm). tape up the fins, headers not counted
face_height = { value = "432 mm", how = "assumed", spread = "20 mm" }
# way the coolant runs; downflow | crossflow (typical downflow). tanks above and below: downflow; tanks left and right: crossflow
arrangement = { value = "downflow", how = "assumed", spread = "0 %" }
# times the coolant crosses the face (typical 1). inlet and outlet on opposite tanks: 1 or 3; both on one tank, with a divider inside: 2
passes = { value = 1, how = "assumed", spread = 0 }
# rows of tubes, front to back (typical 2). look down the filler neck, or count tube ends behind the fins from the side
rows = { value = 2, how = "assumed", spread = 0 }
# width of a tube, front to back (typical 15.9 mm). caliper on the tube ends under the neck, or between the fins at the side
tube_width = { value = "15.9 mm", how = "assumed", spread = "1.27 mm" }
# thickness of a tube across the face, outside (typical 2.4 mm). caliper on a tube seen from the front
tube_thickness = { value = "2.41 mm", how = "assumed", spread = "0.3 mm" }
# wall of a tube (typical 0.13 mm). maker''s print; seldom known and of little weight
tube_wall = { value = "0.13 mm", how = "assumed", spread = "0.03 mm" }
# make of the tubes; plain | lock-seam | dimpled (typical lock-seam). look at a tube end: a folded seam is lock-seam, smooth all round is plain, dents along the flat sides are dimpled
tube_kind = { value = "lock-seam", how = "assumed", spread = "10 %" }
# spacing of the tubes across the face, centre to centre (typical 11.1 mm). tape over eleven tubes, divided by ten
tube_pitch = { value = "11.1 mm", how = "assumed", spread = "0.76 mm" }
# spacing of the rows front to back, centre to centre (typical 17.8 mm). core depth less one tube width, divided by rows less one
row_pitch = { value = "17.8 mm", how = "assumed", spread = "1 mm" }
# fins along the tube (typical 43.3 fins/dm). count the fins along one inch of tube; both legs of a zigzag count
fin_density = { value = "45.3 fins/dm", how = "assumed", spread = "4.7 fins/dm" }
# thickness of the fin sheet (typical 0.076 mm). micrometer on a loose fin; seldom known
fin_thickness = { value = "0.076 mm", how = "assumed", spread = "0.015 mm" }
# louvered, plain or dented fins; louvered | plain | dented (typical louvered). look along a fin with a lamp: rows of slits are louvers; dents, dimples or waves across the air, as nearly all cores before the 1950s have, are dented; flat sheet is plain
fin_kind = { value = "louvered", how = "assumed", spread = "5 %" }
# distance from dent to dent in the direction of the air, on dented fins (typical 12.5 mm). ruler along the depth of a fin, from one dent or wave to the next; 8 to 17 mm, judgement
dent_pitch = { value = "12.5 mm", how = "assumed", spread = "30 %" }
# friction of dented fins over that of a smooth sheet whose boundary layer starts afresh at each dent (typical 1.5). cannot be measured in the bay; the dents'' own drag; judgement
dent_drag = { value = 1.5, how = "assumed", spread = "20 %" }
# width of one louver in the direction of the air (typical 1.1 mm). count the slits along the depth of a fin
louver_pitch = { value = "1.1 mm", how = "assumed", spread = "0.2 mm" }
# angle of the louvers (typical 25 deg). seldom measured; old cores are shallow
louver_angle = { value = "25 deg", how = "assumed", spread = "3 deg" }
# length of a louver over the height of the fin (typical 85 %). length of a slit over the gap between two tubes
louver_share = { value = "85 %", how = "assumed", spread = "5 %" }
# metal of the core; copper-brass | aluminium (typical copper-brass). scratch a fin: red is copper, white is aluminium
material = { value = "copper-brass", how = "assumed", spread = "0 %" }
# scale on the inside of the tubes (typical 0 mm). mirror and lamp down the neck; scrape a tube end
scale_thickness = { value = "0.03 mm", how = "assumed", spread = "0.05 mm" }
# conductivity of the scale (typical 1.2 W/(m K)). cannot be measured in the bay; porous scale 0.5 to 1.5, dense 2.2 to 2.9 W/(m K), from memory
scale_conductivity = { value = "1.2 W/(m K)", how = "assumed", spread = "35 %" }
# share of the tubes that let nothing through (typical 0 %). infrared along the face when hot: cold strips; tube ends under a mirror
blocked_tubes = { value = "0 %", how = "assumed", spread = "2 %" }
# share of the face closed by dirt, insects or flattened fins (typical 3 %). lamp behind the core, look from the front: the dark share
blocked_face = { value = "3 %", how = "assumed", spread = "3 %" }
# share of the fins that have lost their bond to the tubes (typical 0 %). fins that move under a finger, white or green bloom at the joint
loose_fins = { value = "0 %", how = "assumed", spread = "3 %" }

[fan]
# what drives the fan; viscous clutch | bolted to the pulley | electric (typical viscous clutch). finned hub with a coil or spring in front: clutch; plain hub: bolted; motor: electric
drive = { value = "viscous clutch", how = "assumed", spread = "0 %" }
# diameter over the blade tips (typical 457 mm). tape from the hub centre to a tip, doubled
diameter = { value = "470 mm", how = "assumed", spread = "15 mm" }
# number of fans side by side (typical 1). count them
count = { value = 1, how = "assumed", spread = 0 }
# fan pulley speed over engine speed (typical 1). crank pulley diameter over fan pulley diameter
belt_ratio = { value = 1.15, how = "assumed", spread = "8 %" }
# share of speed lost by the slipping belt (typical 0 %). turn the pulley by hand, engine off: it must not slip; optical tachometer
belt_slip = { value = "0 %", how = "assumed", spread = "1 %" }
# speed of an electric fan without load (typical 2400 rpm). optical tachometer on the bench; maker''s print
motor_speed = { value = "2400 rpm", how = "assumed", spread = "240 rpm" }
# voltage at the motor over its rated voltage (typical 97 %). voltmeter at the motor plug, fan running
supply = { value = "97 %", how = "assumed", spread = "4 %" }
# coolant temperature at which the electric fan runs all the time (typical 93 °C). stamped on the switch; thermometer and test lamp
switch_on = { value = "93 °C", how = "assumed", spread = "3 °C" }
# coolant temperature at which the electric fan stops (typical 87 °C). stamped on the switch; thermometer and test lamp
switch_off = { value = "87 °C", how = "assumed", spread = "3 °C" }
# speed of the electric fan''s first stage over full speed; 100 %: one stage only (typical 100 %). listen: two speeds, or one of two fans first; it comes on halfway between the two temperatures
first_stage = { value = "100 %", how = "assumed", spread = "0 %" }
# electric fan can run with the ignition off (typical no). shut it down hot: does the fan go on or come on? Hands off
runs_on = { value = false, how = "assumed", spread = "20 %" }
# electric fan runs whenever the air conditioning is on (typical yes). switch the air conditioning on, engine cold: does the fan start?
with_air_conditioning = { value = true, how = "assumed", spread = "0 %" }
# pressure of the blades without flow, over density x speed^2 x diameter^2 (typical 0.86). cannot be measured in the bay; more and steeper blades give more; from memory
pressure_coefficient = { value = 1.15, how = "assumed", spread = "15 %" }
# flow of the blades without pressure, over speed x diameter^3 (typical 0.52). cannot be measured in the bay; from memory
flow_coefficient = { value = 0.52, how = "assumed", spread = "12 %" }
# power of the blades over density x speed^3 x diameter^5 (typical 1.6). cannot be measured in the bay; old fans 3 and more, from memory
power_coefficient = { value = 2.2, how = "assumed", spread = "25 %" }
# the fan turns or faces the wrong way (typical no). paper in front of the grille must cling to it
backwards = { value = false, how = "assumed", spread = "0 %" }
# share of the blades'' pressure that is left (fouled, cut or missing blades) (typical 100 %). look: bent, cut, missing, wrong-handed blades
strength = { value = "100 %", how = "assumed", spread = "0 %" }

[fan_clutch]
# kind of clutch; standard | heavy-duty | severe-duty (typical heavy-duty). part number or parts list; hot, a standard one turns the fan at 50 to 60 % of the shaft, a heavy-duty one at 80 %, a severe-duty one at 90 %; common practice, no source
kind = { value = "heavy-duty", how = "assumed", spread = "0 %" }
# fan speed over shaft speed, engaged (typical 80 %). optical tachometer, hot, at the reference shaft speed
engaged_ratio = { value = "80 %", how = "assumed", spread = "10 %" }
# fan speed over shaft speed, released (typical 22 %). optical tachometer, cold after a minute of running
released_ratio = { value = "22 %", how = "assumed", spread = "5 %" }
# shaft speed at which the two ratios were read (typical 2400 rpm). tachometer on the pulley; 2,400 rpm is usual
reference_speed = { value = "2400 rpm", how = "assumed", spread = "180 rpm" }
# air temperature at the coil at which it begins to engage (typical 72 °C). thermometer through a small hole in the shroud
engages = { value = "72 °C", how = "assumed", spread = "3 °C" }
# further rise of the air until fully engaged (typical 8 °C). same thermometer: from first to full roar
engaging_range = { value = "8 °C", how = "assumed", spread = "2 °C" }
# time in which coil and fluid follow two thirds of a change of the air (typical 25 s). watch: from unblocking the core until the roar is two thirds gone; judgement
lag = { value = "25 s", how = "assumed", spread = "35 %" }
# how much cooler the air must be to release it again (typical 10 °C). thermometer through the shroud: roar and release; some 20 degF, common practice, no source
hysteresis = { value = "10 °C", how = "assumed", spread = "3 °C" }
# it snaps in and out instead of engaging by and by (typical no). listen on a steady climb: does the roar come and go at once, or swell?
snaps = { value = false, how = "assumed", spread = "5 %" }

[shroud]
# a shroud is fitted (typical yes). look: a duct from the core''s edge to the blades
present = { value = true, how = "assumed", spread = "0 %" }
# share of the face inside the shroud (typical 95 %). tape: area under the shroud over area of the face
coverage = { value = "94 %", how = "assumed", spread = "4 %" }
# gaps between shroud and core, as a share of the face (typical 2 %). tape over cracks, missing seals and holes; length times width
gap_share = { value = "2 %", how = "assumed", spread = "1.2 %" }
# ram air flaps or holes that open outwards at speed, as a share of the face (typical 0 %). look: rubber flaps or round holes in the shroud
flap_share = { value = "0 %", how = "assumed", spread = "1 %" }
# gap between blade tips and shroud (typical 20 mm). feeler or folded card at four places, engine at rest
tip_clearance = { value = "20.3 mm", how = "assumed", spread = "7.6 mm" }
# gap between blades and core (typical 50 mm). tape from the front edge of a blade to the fins
fan_to_core = { value = "50 mm", how = "assumed", spread = "15 mm" }
# share of the ram pressure that is spent in a ring too small for the air of the road (typical 0 %). at 60 mph: does it run cooler with the shroud''s lower half off? area of the ring against the face
chokes = { value = "0 %", how = "assumed", spread = "0 %" }
# share of hot air that comes round to the front at standstill (typical 8 %). thermometer ahead of the core at idle against the air outside; smoke at the grille
recirculation = { value = "5 %", how = "assumed", spread = "3 %" }

[grille]
# pressure at the nose less pressure under the car, over the dynamic pressure (typical 0.68). cannot be measured in the bay; 0.5 to 0.8 with an open underside; 0.25 to 0.5 with an upright radiator and a closed bonnet, whose bay stands under pressure (car_reports1936); engine in the rear 0.1 to 0.3
ram_coefficient = { value = 0.68, how = "assumed", spread = 0.12 }
# loss of grille and nose, in dynamic heads of the air at the face (typical 2). cannot be measured in the bay; 1 to 4 on the grille''s own area; bull bars, plates and lamps add; from memory
loss_coefficient = { value = 2, how = "assumed", spread = "35 %" }
# loss of the engine bay, in dynamic heads of the air at the face (typical 1.5). cannot be measured in the bay; a filled bay and a closed underside add; from memory
bay_loss_coefficient = { value = 1.5, how = "assumed", spread = "40 %" }
# openings in the bonnet (louvres, panels left out, bonnet raised) over the way out that the bay has anyway (typical 0). tape: clear area of louvres or slots over that of the openings under the bay; panels off: about 1
vents = { value = 0, how = "assumed", spread = 0 }
# pressure at the bay''s usual way out less that over such openings, over the dynamic pressure (typical 0.3). cannot be measured in the bay; openings as large as the way out lowered the bay by 0.08 to 0.28 (car_reports1936)
vent_suction = { value = 0.3, how = "assumed", spread = "40 %" }
# share of the ram pressure lost because air goes round the core (typical 8 %). lamp behind the core at night: gaps beside, above, below; missing seals and air dam
leakage = { value = "8 %", how = "assumed", spread = "5 %" }

[condenser]
# air conditioning with a condenser ahead of the core (typical yes). look through the grille
present = { value = true, how = "assumed", spread = "0 %" }
# share of the face behind the condenser (typical 85 %). tape: area of the condenser over area of the face
coverage = { value = "85 %", how = "assumed", spread = "8 %" }
# loss of the condenser, in dynamic heads of the air (typical 5.5). cannot be measured in the bay; 40 to 80 Pa at 4 m/s when clean, from memory; look for mats of leaves between the two
loss_coefficient = { value = 5.5, how = "assumed", spread = "30 %" }
# heat given to the air per kelvin at 2.5 m/s (typical 450 W/K). cannot be measured in the bay; scales with size
conductance = { value = "450 W/K", how = "assumed", spread = "25 %" }
# refrigerant; R134a | R12 (typical R134a). label; quick couplings are R134a
refrigerant = { value = "R134a", how = "assumed", spread = "30 %" }
# cooling asked of the evaporator at 35 degC outside, high blower (typical 5 kW). cannot be measured in the bay; 4 to 6 kW a row of seats and a half, roof units more; from memory
cooling_load = { value = "4.5 kW", how = "assumed", spread = "20 %" }

[water_pump]
# pump speed over engine speed (typical 1.05). crank pulley diameter over pump pulley diameter
belt_ratio = { value = 1.05, how = "assumed", spread = "7 %" }
# share of speed lost by the slipping belt (typical 0 %). turn the pulley by hand, engine off: it must not slip
belt_slip = { value = "0 %", how = "assumed", spread = "1 %" }
# pressure rise without flow at 2,000 rpm of the pump (typical 35 kPa). cannot be measured in the bay; 4 to 6 psi for a V8, from memory
dead_head = { value = "34.5 kPa", how = "assumed", spread = "20 %" }
# flow without resistance at 2,000 rpm of the pump (typical 252 L/min). cannot be measured in the bay; from memory
free_flow = { value = "250 L/min", how = "assumed", spread = "20 %" }
# share of the head lost to worn or rusted vanes (typical 3 %). pump off: vane height and gap to the housing
wear = { value = "3 %", how = "assumed", spread = "3 %" }

[thermostat]
# temperature at which it begins to open (the figure stamped on it) (typical 82 °C). stamped on the flange; pan of water and thermometer
starts_opening = { value = "82 °C", how = "assumed", spread = "3.9 °C" }
# further rise until fully open (typical 12 °C). pan of water: from first crack to full lift
opening_range = { value = "12 °C", how = "assumed", spread = "2 °C" }
# opening it really reaches, over full (typical 100 %). pan of water: lift must reach 8 to 10 mm
largest_opening = { value = "100 %", how = "assumed", spread = "0 %" }
# opening left when cold, over full (typical 0.2 %). look: jiggle pin, drilled hole, or stuck ajar; 1 if it was taken out
smallest_opening = { value = "0.2 %", how = "assumed", spread = "0.15 %" }
# clear area when fully open, loss of one dynamic head (typical 0.0005 m2). valve circumference times lift, less a third
port_area = { value = "5 cm2", how = "assumed", spread = "20 %" }
# clear area of the bypass, loss of one dynamic head (typical 0.00009 m2). bore of the bypass hose or drilling
bypass_area = { value = "0.9 cm2", how = "assumed", spread = "25 %" }
# the valve shuts the bypass as it opens (typical no). second disc or sleeve under the valve; it must fit the housing
closes_bypass = { value = false, how = "assumed", spread = "20 %" }
# time in which the wax follows two thirds of a change of the coolant (typical 12 s). hot water, thermometer and watch: time from dipping it to two thirds of its lift; from memory
lag = { value = "12 s", how = "assumed", spread = "30 %" }
# how much cooler it must be to close again by as much as it opened (typical 2 °C). pan of water: thermometer at first crack, and again where it shuts as it cools; driven: 1 to 2 K
hysteresis = { value = "1.5 °C", how = "assumed", spread = "0.5 °C" }

[hoses]
# bore of the top hose (typical 38 mm). caliper over the spigot, less its wall
top_bore = { value = "38 mm", how = "assumed", spread = "2 mm" }
# bore of the bottom hose (typical 44 mm). caliper over the spigot, less its wall
bottom_bore = { value = "44.4 mm", how = "assumed", spread = "2 mm" }
# loss of each hose with its ends and bends, in dynamic heads (typical 2.5). cannot be measured in the bay; more bends, more loss
loss_coefficient = { value = 2.5, how = "assumed", spread = "25 %" }
# share of the bottom hose''s area lost under suction at 3,000 rpm (typical 0 %). watch it while somebody holds 3,000 rpm; squeeze it cold for the spring
collapse = { value = "0 %", how = "assumed", spread = "0 %" }

[cap]
# pressure stamped on the cap (typical 103 kPa). stamped on the cap; an open system has 0
pressure = { value = "103.4 kPa", how = "assumed", spread = "7 kPa" }
# share of the stamped pressure that it holds (typical 97 %). cap tester, one minute
holds = { value = "95 %", how = "assumed", spread = "5 %" }
# what happens to what it lets out; open overflow | recovery bottle (typical recovery bottle). hose to a bottle below its level: recovery; hose to the road: open
system = { value = "recovery bottle", how = "assumed", spread = "10 %" }

[fill]
# share of concentrate by volume (typical 50 %). refractometer for the right glycol; hydrometer is rougher
concentrate = { value = "50 %", how = "assumed", spread = "6 %" }
# glycol in the concentrate; ethylene | propylene (typical ethylene). label or record; colour says nothing
glycol = { value = "ethylene", how = "assumed", spread = "5 %" }
# volume of the system (typical 15 L). handbook, with heater; measure what goes in
capacity = { value = "16.1 L", how = "assumed", spread = "7 %" }
# share of the volume that is air (typical 0 %). level in the core, cold, not in the bottle; volume refilled against capacity
air = { value = "0 %", how = "assumed", spread = "1 %" }
# share of the coolant that stands in core, tanks and hoses (typical 45 %). what runs out at the petcock over the capacity; 40 to 50 %, from memory
in_core = { value = "45 %", how = "assumed", spread = "5 %" }
# share of the volume that may be missing before tubes run dry and the way over the top is broken (typical 15 %). cannot be measured in the bay; what the upper tank holds above the tubes, over the capacity; judgement
may_be_missing = { value = "15 %", how = "assumed", spread = "4 %" }
# share of the loop that gas from the cylinders fills at full load (typical 0 %). block test; bubbles in the neck that come faster with the throttle
gas = { value = "0 %", how = "assumed", spread = "0 %" }

[gauge]
# where the sender sits; outlet housing | cylinder head | radiator tank (typical outlet housing). follow the wire from the gauge: at the thermostat, in a head by the plugs, or in the radiator
sender_place = { value = "outlet housing", how = "assumed", spread = "0 %" }
# sender above or below what flows past it (typical 0 °C). second thermometer beside it; a poor seat or thread sealer reads low
sender_offset = { value = "0 °C", how = "assumed", spread = "1.5 °C" }
# error of the instrument (typical 0 °C). second thermometer in the neck; sender in hot water
error = { value = "0 °C", how = "assumed", spread = "2 °C" }
# time in which sender and needle follow two thirds of a change (typical 8 s). sender in hot water and a watch; a heated-strip gauge takes 20 to 30 s, a logger 2 to 3, from memory
lag = { value = "8 s", how = "assumed", spread = "50 %" }

[heater]
# heat given to the cabin per kelvin between coolant and outside air, full blower (typical 75 W/K). cannot be measured in the bay; 4 to 6 kW on a cold day, from memory
conductance = { value = "75 W/K", how = "assumed", spread = "25 %" }

[transmission_cooler]
# where the transmission is cooled; none | in the tank | ahead of the core | out of the core''s air (typical in the tank). follow the two pipes from the transmission
place = { value = "in the tank", how = "assumed", spread = "0 %" }
# heat passed on per kelvin (typical 200 W/K). cannot be measured in the bay; from memory
conductance = { value = "200 W/K", how = "assumed", spread = "25 %" }
# heat lost from the transmission''s case per kelvin (typical 25 W/K). cannot be measured in the bay; judgement
case_conductance = { value = "25 W/K", how = "assumed", spread = "25 %" }

[engine]
# fuel; petrol | diesel (typical petrol). label at the filler; spark plugs or injectors
fuel = { value = "petrol", how = "assumed", spread = "0 %" }
# swept volume (typical 5 L). plate, handbook or casting number
displacement = { value = "5 L", how = "assumed", spread = "0.05 L" }
# number of cylinders (typical 8). count the plugs or injectors
cylinders = { value = 8, how = "assumed", spread = 0 }
# speed at hot idle (typical 672 rpm). tachometer
idle_speed = { value = "700 rpm", how = "assumed", spread = "50 rpm" }
# highest speed held on a long climb (typical 3960 rpm). handbook; speed of rated power
top_speed = { value = "4000 rpm", how = "assumed", spread = "200 rpm" }
# brake mean effective pressure at full load, sea level (typical 800 kPa). from rated torque: 4 pi torque / swept volume
full_load_pressure = { value = "740 kPa", how = "assumed", spread = "7 %" }
# share of the fuel''s heat turned into work on the pistons (typical 34.5 %). cannot be measured in the bay; petrol 0.33 to 0.36, diesel 0.42 to 0.46
indicated_efficiency = { value = "34 %", how = "assumed", spread = "1.2 %" }
# mean pressure lost to friction and pumping (typical 150 kPa). cannot be measured in the bay; 1.3 to 1.9 bar, from memory
friction_pressure = { value = "150 kPa", how = "assumed", spread = "12 %" }
# share of the fuel''s heat that goes through cylinder walls, head and ports at a light idle (5 kW a litre) (typical 43 %). cannot be measured in the bay; 0.36 to 0.48 in six logged vehicles, petrol and diesel alike
film_share = { value = "43 %", how = "assumed", spread = "2 %" }
# what makes the mixture of a petrol engine; carburettor | injection (typical carburettor). look under the air filter: a carburettor, or nozzles and a fuel rail
mixture = { value = "carburettor", how = "assumed", spread = "5 %" }
# share of the fuel that leaves a carburettor engine unburnt at idle (typical 12 %). exhaust analyser at hot idle: 1 % CO is about 3.5 %, 3 % CO about 11 %, from memory
unburnt_idle = { value = "12 %", how = "assumed", spread = "3 %" }
# ignition or injection later than right, in crank angle (typical 0 deg). timing light, vacuum hose off and plugged; then the advance sweep
late_ignition = { value = "2 deg", how = "assumed", spread = "3 deg" }
# heat to the coolant under load with this mixture over that with the right one (typical 1). cannot be measured in the bay; lean or rich gives 0.95 to 1.10, from memory
mixture_heat = { value = 1, how = "assumed", spread = 0.02 }
# back pressure at full load beyond a healthy exhaust (typical 0 kPa). gauge ahead of the silencer: under 2 psi at load is healthy
exhaust_back_pressure = { value = "0 kPa", how = "assumed", spread = "0 kPa" }
# power of alternator, steering pump and the like (typical 0.9 kW). cannot be measured in the bay; judgement
accessories = { value = "1.04 kW", how = "assumed", spread = "30 %" }
# clear area of the water jackets, loss of one dynamic head (typical 0.0007 m2). cannot be measured in the bay; sediment makes it small
jacket_area = { value = "7 cm2", how = "assumed", spread = "20 %" }
# heat lost from the outside of the engine per kelvin (typical 30 W/K). cannot be measured in the bay; judgement
surface_conductance = { value = "47 W/K", how = "assumed", spread = "25 %" }
# idle speed stone cold over that when hot (typical 1.6). tachometer after a cold start, choke in: fast idle over hot idle; from memory
cold_idle = { value = 1.6, how = "assumed", spread = 0.2 }
# mass of the engine''s iron and aluminium over its swept volume (typical 47 kg/L). handbook: mass of the bare engine over its litres; iron V8 46 kg/L, small fours more, from memory
metal = { value = "47 kg/L", how = "assumed", spread = "20 %" }
# share of that mass that is aluminium (typical 10 %). magnet on heads and block
aluminium = { value = "10 %", how = "assumed", spread = "5 %" }
# share of that mass that warms with the coolant: what the gas heats of heads and bores (typical 12 %). cannot be measured in the bay; logged warm-ups ask for 0.10 to 0.20
jacket_share = { value = "12 %", how = "assumed", spread = "2.5 %" }
# that metal above the coolant, in the mean, at full load (typical 32 °C). cannot be measured in the bay; judgement: shut down hot, the gauge then rises by the 5 to 10 K that are told
metal_above_coolant = { value = "32 °C", how = "assumed", spread = "7 °C" }
# oil in the sump over swept volume (typical 1). handbook: oil fill over the litres of the engine
oil_volume = { value = 1, how = "assumed", spread = "15 %" }
# share of the gas film''s heat that goes to oil and lower block, besides all friction (typical 6 %). cannot be measured in the bay; judgement
oil_share = { value = "6 %", how = "assumed", spread = "2 %" }
# oil above the coolant at full load and highest speed (typical 34 °C). oil thermometer at the sump after a long climb, less the coolant
oil_above_coolant = { value = "34 °C", how = "assumed", spread = "5 °C" }

[drivetrain]
# gearbox; manual | automatic (typical automatic). count the pedals
kind = { value = "automatic", how = "assumed", spread = "0 %" }
# propeller shaft turns per wheel turn (typical 3.4). tag on the axle; turns of the shaft for one turn of both wheels
axle_ratio = { value = 3.4, how = "assumed", spread = 0.25 }
# rolling radius of the driven tyres (typical 345 mm). hub centre to the ground, loaded
tyre_radius = { value = "356 mm", how = "assumed", spread = "10 mm" }
# ratio of the highest gear (typical 1). handbook; overdrive is below 1
top_ratio = { value = 1, how = "assumed", spread = 0 }
# ratio of the next lower gear (typical 1.48). handbook
second_ratio = { value = 1.5, how = "assumed", spread = 0.03 }
# ratio of the gear below that (typical 2.48). handbook
third_ratio = { value = 2.48, how = "assumed", spread = 0.05 }
# share of the power that reaches the wheels, converter slip not counted (typical 89 %). cannot be measured in the bay; automatic 0.88, manual 0.92, from memory
efficiency = { value = "89 %", how = "assumed", spread = "1.5 %" }
# engine speed with the converter stalled at full load (typical 1800 rpm). handbook; do not try it on a hot engine
stall_speed = { value = "1800 rpm", how = "assumed", spread = "150 rpm" }
# converter locks in the highest gear (typical no). handbook; the speed drops once more after the last shift
lock_up = { value = false, how = "assumed", spread = "0 %" }
# mass of the gearbox with its fluid (typical 75 kg). handbook; from memory
gearbox_mass = { value = "75 kg", how = "assumed", spread = "25 %" }

[body]
# mass with people and load (typical 2000 kg). weighbridge; plate plus people and load
mass = { value = "2130 kg", how = "assumed", spread = "7 %" }
# drag coefficient times frontal area (typical 1 m2). width x height x 0.85 times 0.4 to 0.6; from memory
drag_area = { value = "1.25 m2", how = "assumed", spread = "10 %" }
# rolling resistance over weight (typical 0.015). radial 0.010 to 0.014, bias-ply 0.015 to 0.020, from memory; dragging brakes add
rolling_resistance = { value = 0.015, how = "assumed", spread = "13 %" }

[doubts]
# heat transfer to the air over the published relation (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
air_heat_transfer = { value = 1, how = "assumed", spread = "10 %" }
# air pressure drop of the core over the published relation (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
air_friction = { value = 1, how = "assumed", spread = "15 %" }
# Reynolds number at which the tubes leave laminar flow (typical 2300). cannot be measured in the bay; readings of this vehicle narrow it
transition_reynolds = { value = 2300, how = "assumed", spread = 400 }
# heat transfer in the tubes over that of smooth ones (typical 1.2). cannot be measured in the bay; readings of this vehicle narrow it
tube_enhancement = { value = 1.2, how = "assumed", spread = "12 %" }
# heat of film and friction over what the engine''s figures give (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
coolant_heat = { value = 1, how = "assumed", spread = "9 %" }
# power of the fuel with which the heat through the gas film grows (typical 0.7). cannot be measured in the bay; readings of this vehicle narrow it
film_power = { value = 0.7, how = "assumed", spread = 0.04 }
# share of friction and pumping that stays in the engine as heat (typical 90 %). cannot be measured in the bay; readings of this vehicle narrow it
friction_share = { value = "90 %", how = "assumed", spread = "8 %" }
# warmth of the air around a standing engine over that of its coolant, both above ambient (typical 78 %). cannot be measured in the bay; readings of this vehicle narrow it
bay_warmth = { value = "78 %", how = "assumed", spread = "5 %" }
# air that drifts through a hot core with the fan still and no wind (typical 0.252 km/h). cannot be measured in the bay; readings of this vehicle narrow it
still_air = { value = "0.252 km/h", how = "assumed", spread = "30 %" }
# pressure of the fan over its stated curve, as fitted (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
fan_pressure = { value = 1, how = "assumed", spread = "12 %" }
# share of its pressure that a fan without a shroud keeps, air drawn in past the core counted apart (typical 86 %). cannot be measured in the bay; so that a cowl adds the third of air that was measured standing (car_reports1936)
bare_fan_pressure = { value = "86 %", how = "assumed", spread = "4 %" }
# growth of the circle that blades without a shroud draw through, over their distance from the core (typical 0.8). cannot be measured in the bay; readings of this vehicle narrow it
bare_fan_widening = { value = 0.8, how = "assumed", spread = 0.2 }
# how far from the tips of blades without a shroud air slips in past the core (typical 30 mm). cannot be measured in the bay; readings of this vehicle narrow it
bare_fan_rim = { value = "30 mm", how = "assumed", spread = "15 %" }
# air at the grille above the shade, standing among cars on hot asphalt (typical 5 °C). cannot be measured in the bay; 3 to 8 K; thermometer at the grille in the queue against one in the shade
hot_ground = { value = "5 °C", how = "assumed", spread = "1.7 °C" }
# liquid that steam carries out of an open neck over its own mass (typical 0.5). cannot be measured in the bay; 0.45 and 0.57 on a stand (car_reports1922)
carry_out_open = { value = 0.5, how = "assumed", spread = "50 %" }
# liquid that steam carries past a pressure cap over its own mass (typical 1). cannot be measured in the bay; judgement
carry_out_pressed = { value = 1, how = "assumed", spread = "78 %" }

[[duty]]
name = "usual"
# air temperature outside (typical 32 °C). thermometer in the shade, not the sun on the car
ambient = { value = "26.7 °C", how = "assumed", spread = "1 °C" }
# height above the sea (typical 100 m). map
altitude = { value = "100 m", how = "assumed", spread = "30 m" }
# relative humidity (typical 40 %). weather report; of little weight
humidity = { value = "40 %", how = "assumed", spread = "10 %" }
# road speed (typical 0 km/h). speedometer or phone
speed = { value = "88.5 km/h", how = "assumed", spread = "0 km/h" }
# wind against the nose (typical 0 km/h). weather report; following wind is negative
head_wind = { value = "0 km/h", how = "assumed", spread = "3.6 km/h" }
# rise of the road over its length on the map (typical 0 %). map: height gained over distance
grade = { value = "0 %", how = "assumed", spread = "0 %" }
# air conditioning on (typical no). switch
air_conditioning = { value = false, how = "assumed", spread = "0 %" }
# heater; off | half | full (typical off). lever and blower; full: warmest and fastest
heater = { value = "off", how = "assumed", spread = "0 %" }
# gear; as needed | highest | next lower | low (typical as needed). lever
gear = { value = "as needed", how = "assumed", spread = "0 %" }
# engine speed held by hand or governor; 0: as geared, or idle (typical 0 rpm). tachometer
engine_speed = { value = "0 rpm", how = "assumed", spread = "0 rpm" }
# automatic held on the brake in gear at standstill (typical no). lever
in_gear = { value = false, how = "assumed", spread = "0 %" }
# stands or crawls among cars on hot asphalt (typical no). a queue on a sunny day: the air at the grille is then some 5 K above the shade
among_cars = { value = false, how = "assumed", spread = "0 %" }
# power taken by a shaft at standstill or at work: pump, generator, implement (typical 0 kW). plate of the driven machine; fuel used an hour
shaft_load = { value = "0 kW", how = "assumed", spread = "0 kW" }
# mass of the trailer (typical 0 kg). weighbridge
trailer_mass = { value = "0 kg", how = "assumed", spread = "0 kg" }
# drag area added by the trailer (typical 0 m2). box 1.2 to 1.6 m2, from memory
trailer_drag_area = { value = "0 m2", how = "assumed", spread = "0 m2" }
','');
INSERT INTO "revision" VALUES(2,2,1,'2026-11-30T11:31:29.286+00:00','','closed: gauge lies, coolant low or air trapped','1970s half-ton pickup, 5.0 L V8, automatic, air conditioning','','closed','316eb49ececc935ce8e609ac9fd7f49df674b043e88a3f44de68be364eb48642','format = "toptank-job-1"
units = "metric"  # what a bare number means: us or metric

[job]
title = "1970s half-ton pickup, 5.0 L V8, automatic, air conditioning"  # change it to this vehicle
complaint = ""  # the driver''s own words
limit = "107 C"  # the customer wants to stay under this

[vehicle]
like = "pickup-1970s-v8-air"  # fills in whatever is deleted below

# What was seen: a figure of the gauge, or words = fine, warm, hot or boiled.
# [[reading]]
# duty = "usual"
# gauge = "90 C"

# A line marked `assumed` is a guess with a spread (one standard deviation).
# Measured it? Write the plain value instead: face_width = "26 in".
# Read it off a plate or a handbook? { value = "15 psi", how = "plate" }

[core]
# width of the finned face (typical 600 mm). tape across the fins, tanks and side straps not counted
face_width = { value = "660 mm", how = "assumed", spread = "38 mm" }
# height of the finned face (typical 430 mm). tape up the fins, headers not counted
face_height = { value = "432 mm", how = "assumed", spread = "20 mm" }
# way the coolant runs; downflow | crossflow (typical downflow). tanks above and below: downflow; tanks left and right: crossflow
arrangement = { value = "downflow", how = "assumed", spread = "0 %" }
# times the coolant crosses the face (typical 1). inlet and outlet on opposite tanks: 1 or 3; both on one tank, with a divider inside: 2
passes = { value = 1, how = "assumed", spread = 0 }
# rows of tubes, front to back (typical 2). look down the filler neck, or count tube ends behind the fins from the side
rows = { value = 2, how = "assumed", spread = 0 }
# width of a tube, front to back (typical 15.9 mm). caliper on the tube ends under the neck, or between the fins at the side
tube_width = { value = "15.9 mm", how = "assumed", spread = "1.27 mm" }
# thickness of a tube across the face, outside (typical 2.4 mm). caliper on a tube seen from the front
tube_thickness = { value = "2.41 mm", how = "assumed", spread = "0.3 mm" }
# wall of a tube (typical 0.13 mm). maker''s print; seldom known and of little weight
tube_wall = { value = "0.13 mm", how = "assumed", spread = "0.03 mm" }
# make of the tubes; plain | lock-seam | dimpled (typical lock-seam). look at a tube end: a folded seam is lock-seam, smooth all round is plain, dents along the flat sides are dimpled
tube_kind = { value = "lock-seam", how = "assumed", spread = "10 %" }
# spacing of the tubes across the face, centre to centre (typical 11.1 mm). tape over eleven tubes, divided by ten
tube_pitch = { value = "11.1 mm", how = "assumed", spread = "0.76 mm" }
# spacing of the rows front to back, centre to centre (typical 17.8 mm). core depth less one tube width, divided by rows less one
row_pitch = { value = "17.8 mm", how = "assumed", spread = "1 mm" }
# fins along the tube (typical 43.3 fins/dm). count the fins along one inch of tube; both legs of a zigzag count
fin_density = { value = "45.3 fins/dm", how = "assumed", spread = "4.7 fins/dm" }
# thickness of the fin sheet (typical 0.076 mm). micrometer on a loose fin; seldom known
fin_thickness = { value = "0.076 mm", how = "assumed", spread = "0.015 mm" }
# louvered, plain or dented fins; louvered | plain | dented (typical louvered). look along a fin with a lamp: rows of slits are louvers; dents, dimples or waves across the air, as nearly all cores before the 1950s have, are dented; flat sheet is plain
fin_kind = { value = "louvered", how = "assumed", spread = "5 %" }
# distance from dent to dent in the direction of the air, on dented fins (typical 12.5 mm). ruler along the depth of a fin, from one dent or wave to the next; 8 to 17 mm, judgement
dent_pitch = { value = "12.5 mm", how = "assumed", spread = "30 %" }
# friction of dented fins over that of a smooth sheet whose boundary layer starts afresh at each dent (typical 1.5). cannot be measured in the bay; the dents'' own drag; judgement
dent_drag = { value = 1.5, how = "assumed", spread = "20 %" }
# width of one louver in the direction of the air (typical 1.1 mm). count the slits along the depth of a fin
louver_pitch = { value = "1.1 mm", how = "assumed", spread = "0.2 mm" }
# angle of the louvers (typical 25 deg). seldom measured; old cores are shallow
louver_angle = { value = "25 deg", how = "assumed", spread = "3 deg" }
# length of a louver over the height of the fin (typical 85 %). length of a slit over the gap between two tubes
louver_share = { value = "85 %", how = "assumed", spread = "5 %" }
# metal of the core; copper-brass | aluminium (typical copper-brass). scratch a fin: red is copper, white is aluminium
material = { value = "copper-brass", how = "assumed", spread = "0 %" }
# scale on the inside of the tubes (typical 0 mm). mirror and lamp down the neck; scrape a tube end
scale_thickness = { value = "0.03 mm", how = "assumed", spread = "0.05 mm" }
# conductivity of the scale (typical 1.2 W/(m K)). cannot be measured in the bay; porous scale 0.5 to 1.5, dense 2.2 to 2.9 W/(m K), from memory
scale_conductivity = { value = "1.2 W/(m K)", how = "assumed", spread = "35 %" }
# share of the tubes that let nothing through (typical 0 %). infrared along the face when hot: cold strips; tube ends under a mirror
blocked_tubes = { value = "0 %", how = "assumed", spread = "2 %" }
# share of the face closed by dirt, insects or flattened fins (typical 3 %). lamp behind the core, look from the front: the dark share
blocked_face = { value = "3 %", how = "assumed", spread = "3 %" }
# share of the fins that have lost their bond to the tubes (typical 0 %). fins that move under a finger, white or green bloom at the joint
loose_fins = { value = "0 %", how = "assumed", spread = "3 %" }

[fan]
# what drives the fan; viscous clutch | bolted to the pulley | electric (typical viscous clutch). finned hub with a coil or spring in front: clutch; plain hub: bolted; motor: electric
drive = { value = "viscous clutch", how = "assumed", spread = "0 %" }
# diameter over the blade tips (typical 457 mm). tape from the hub centre to a tip, doubled
diameter = { value = "470 mm", how = "assumed", spread = "15 mm" }
# number of fans side by side (typical 1). count them
count = { value = 1, how = "assumed", spread = 0 }
# fan pulley speed over engine speed (typical 1). crank pulley diameter over fan pulley diameter
belt_ratio = { value = 1.15, how = "assumed", spread = "8 %" }
# share of speed lost by the slipping belt (typical 0 %). turn the pulley by hand, engine off: it must not slip; optical tachometer
belt_slip = { value = "0 %", how = "assumed", spread = "1 %" }
# speed of an electric fan without load (typical 2400 rpm). optical tachometer on the bench; maker''s print
motor_speed = { value = "2400 rpm", how = "assumed", spread = "240 rpm" }
# voltage at the motor over its rated voltage (typical 97 %). voltmeter at the motor plug, fan running
supply = { value = "97 %", how = "assumed", spread = "4 %" }
# coolant temperature at which the electric fan runs all the time (typical 93 °C). stamped on the switch; thermometer and test lamp
switch_on = { value = "93 °C", how = "assumed", spread = "3 °C" }
# coolant temperature at which the electric fan stops (typical 87 °C). stamped on the switch; thermometer and test lamp
switch_off = { value = "87 °C", how = "assumed", spread = "3 °C" }
# speed of the electric fan''s first stage over full speed; 100 %: one stage only (typical 100 %). listen: two speeds, or one of two fans first; it comes on halfway between the two temperatures
first_stage = { value = "100 %", how = "assumed", spread = "0 %" }
# electric fan can run with the ignition off (typical no). shut it down hot: does the fan go on or come on? Hands off
runs_on = { value = false, how = "assumed", spread = "20 %" }
# electric fan runs whenever the air conditioning is on (typical yes). switch the air conditioning on, engine cold: does the fan start?
with_air_conditioning = { value = true, how = "assumed", spread = "0 %" }
# pressure of the blades without flow, over density x speed^2 x diameter^2 (typical 0.86). cannot be measured in the bay; more and steeper blades give more; from memory
pressure_coefficient = { value = 1.15, how = "assumed", spread = "15 %" }
# flow of the blades without pressure, over speed x diameter^3 (typical 0.52). cannot be measured in the bay; from memory
flow_coefficient = { value = 0.52, how = "assumed", spread = "12 %" }
# power of the blades over density x speed^3 x diameter^5 (typical 1.6). cannot be measured in the bay; old fans 3 and more, from memory
power_coefficient = { value = 2.2, how = "assumed", spread = "25 %" }
# the fan turns or faces the wrong way (typical no). paper in front of the grille must cling to it
backwards = { value = false, how = "assumed", spread = "0 %" }
# share of the blades'' pressure that is left (fouled, cut or missing blades) (typical 100 %). look: bent, cut, missing, wrong-handed blades
strength = { value = "100 %", how = "assumed", spread = "0 %" }

[fan_clutch]
# kind of clutch; standard | heavy-duty | severe-duty (typical heavy-duty). part number or parts list; hot, a standard one turns the fan at 50 to 60 % of the shaft, a heavy-duty one at 80 %, a severe-duty one at 90 %; common practice, no source
kind = { value = "heavy-duty", how = "assumed", spread = "0 %" }
# fan speed over shaft speed, engaged (typical 80 %). optical tachometer, hot, at the reference shaft speed
engaged_ratio = { value = "80 %", how = "assumed", spread = "10 %" }
# fan speed over shaft speed, released (typical 22 %). optical tachometer, cold after a minute of running
released_ratio = { value = "22 %", how = "assumed", spread = "5 %" }
# shaft speed at which the two ratios were read (typical 2400 rpm). tachometer on the pulley; 2,400 rpm is usual
reference_speed = { value = "2400 rpm", how = "assumed", spread = "180 rpm" }
# air temperature at the coil at which it begins to engage (typical 72 °C). thermometer through a small hole in the shroud
engages = { value = "72 °C", how = "assumed", spread = "3 °C" }
# further rise of the air until fully engaged (typical 8 °C). same thermometer: from first to full roar
engaging_range = { value = "8 °C", how = "assumed", spread = "2 °C" }
# time in which coil and fluid follow two thirds of a change of the air (typical 25 s). watch: from unblocking the core until the roar is two thirds gone; judgement
lag = { value = "25 s", how = "assumed", spread = "35 %" }
# how much cooler the air must be to release it again (typical 10 °C). thermometer through the shroud: roar and release; some 20 degF, common practice, no source
hysteresis = { value = "10 °C", how = "assumed", spread = "3 °C" }
# it snaps in and out instead of engaging by and by (typical no). listen on a steady climb: does the roar come and go at once, or swell?
snaps = { value = false, how = "assumed", spread = "5 %" }

[shroud]
# a shroud is fitted (typical yes). look: a duct from the core''s edge to the blades
present = { value = true, how = "assumed", spread = "0 %" }
# share of the face inside the shroud (typical 95 %). tape: area under the shroud over area of the face
coverage = { value = "94 %", how = "assumed", spread = "4 %" }
# gaps between shroud and core, as a share of the face (typical 2 %). tape over cracks, missing seals and holes; length times width
gap_share = { value = "2 %", how = "assumed", spread = "1.2 %" }
# ram air flaps or holes that open outwards at speed, as a share of the face (typical 0 %). look: rubber flaps or round holes in the shroud
flap_share = { value = "0 %", how = "assumed", spread = "1 %" }
# gap between blade tips and shroud (typical 20 mm). feeler or folded card at four places, engine at rest
tip_clearance = { value = "20.3 mm", how = "assumed", spread = "7.6 mm" }
# gap between blades and core (typical 50 mm). tape from the front edge of a blade to the fins
fan_to_core = { value = "50 mm", how = "assumed", spread = "15 mm" }
# share of the ram pressure that is spent in a ring too small for the air of the road (typical 0 %). at 60 mph: does it run cooler with the shroud''s lower half off? area of the ring against the face
chokes = { value = "0 %", how = "assumed", spread = "0 %" }
# share of hot air that comes round to the front at standstill (typical 8 %). thermometer ahead of the core at idle against the air outside; smoke at the grille
recirculation = { value = "5 %", how = "assumed", spread = "3 %" }

[grille]
# pressure at the nose less pressure under the car, over the dynamic pressure (typical 0.68). cannot be measured in the bay; 0.5 to 0.8 with an open underside; 0.25 to 0.5 with an upright radiator and a closed bonnet, whose bay stands under pressure (car_reports1936); engine in the rear 0.1 to 0.3
ram_coefficient = { value = 0.68, how = "assumed", spread = 0.12 }
# loss of grille and nose, in dynamic heads of the air at the face (typical 2). cannot be measured in the bay; 1 to 4 on the grille''s own area; bull bars, plates and lamps add; from memory
loss_coefficient = { value = 2, how = "assumed", spread = "35 %" }
# loss of the engine bay, in dynamic heads of the air at the face (typical 1.5). cannot be measured in the bay; a filled bay and a closed underside add; from memory
bay_loss_coefficient = { value = 1.5, how = "assumed", spread = "40 %" }
# openings in the bonnet (louvres, panels left out, bonnet raised) over the way out that the bay has anyway (typical 0). tape: clear area of louvres or slots over that of the openings under the bay; panels off: about 1
vents = { value = 0, how = "assumed", spread = 0 }
# pressure at the bay''s usual way out less that over such openings, over the dynamic pressure (typical 0.3). cannot be measured in the bay; openings as large as the way out lowered the bay by 0.08 to 0.28 (car_reports1936)
vent_suction = { value = 0.3, how = "assumed", spread = "40 %" }
# share of the ram pressure lost because air goes round the core (typical 8 %). lamp behind the core at night: gaps beside, above, below; missing seals and air dam
leakage = { value = "8 %", how = "assumed", spread = "5 %" }

[condenser]
# air conditioning with a condenser ahead of the core (typical yes). look through the grille
present = { value = true, how = "assumed", spread = "0 %" }
# share of the face behind the condenser (typical 85 %). tape: area of the condenser over area of the face
coverage = { value = "85 %", how = "assumed", spread = "8 %" }
# loss of the condenser, in dynamic heads of the air (typical 5.5). cannot be measured in the bay; 40 to 80 Pa at 4 m/s when clean, from memory; look for mats of leaves between the two
loss_coefficient = { value = 5.5, how = "assumed", spread = "30 %" }
# heat given to the air per kelvin at 2.5 m/s (typical 450 W/K). cannot be measured in the bay; scales with size
conductance = { value = "450 W/K", how = "assumed", spread = "25 %" }
# refrigerant; R134a | R12 (typical R134a). label; quick couplings are R134a
refrigerant = { value = "R134a", how = "assumed", spread = "30 %" }
# cooling asked of the evaporator at 35 degC outside, high blower (typical 5 kW). cannot be measured in the bay; 4 to 6 kW a row of seats and a half, roof units more; from memory
cooling_load = { value = "4.5 kW", how = "assumed", spread = "20 %" }

[water_pump]
# pump speed over engine speed (typical 1.05). crank pulley diameter over pump pulley diameter
belt_ratio = { value = 1.05, how = "assumed", spread = "7 %" }
# share of speed lost by the slipping belt (typical 0 %). turn the pulley by hand, engine off: it must not slip
belt_slip = { value = "0 %", how = "assumed", spread = "1 %" }
# pressure rise without flow at 2,000 rpm of the pump (typical 35 kPa). cannot be measured in the bay; 4 to 6 psi for a V8, from memory
dead_head = { value = "34.5 kPa", how = "assumed", spread = "20 %" }
# flow without resistance at 2,000 rpm of the pump (typical 252 L/min). cannot be measured in the bay; from memory
free_flow = { value = "250 L/min", how = "assumed", spread = "20 %" }
# share of the head lost to worn or rusted vanes (typical 3 %). pump off: vane height and gap to the housing
wear = { value = "3 %", how = "assumed", spread = "3 %" }

[thermostat]
# temperature at which it begins to open (the figure stamped on it) (typical 82 °C). stamped on the flange; pan of water and thermometer
starts_opening = { value = "82 °C", how = "assumed", spread = "3.9 °C" }
# further rise until fully open (typical 12 °C). pan of water: from first crack to full lift
opening_range = { value = "12 °C", how = "assumed", spread = "2 °C" }
# opening it really reaches, over full (typical 100 %). pan of water: lift must reach 8 to 10 mm
largest_opening = { value = "100 %", how = "assumed", spread = "0 %" }
# opening left when cold, over full (typical 0.2 %). look: jiggle pin, drilled hole, or stuck ajar; 1 if it was taken out
smallest_opening = { value = "0.2 %", how = "assumed", spread = "0.15 %" }
# clear area when fully open, loss of one dynamic head (typical 0.0005 m2). valve circumference times lift, less a third
port_area = { value = "5 cm2", how = "assumed", spread = "20 %" }
# clear area of the bypass, loss of one dynamic head (typical 0.00009 m2). bore of the bypass hose or drilling
bypass_area = { value = "0.9 cm2", how = "assumed", spread = "25 %" }
# the valve shuts the bypass as it opens (typical no). second disc or sleeve under the valve; it must fit the housing
closes_bypass = { value = false, how = "assumed", spread = "20 %" }
# time in which the wax follows two thirds of a change of the coolant (typical 12 s). hot water, thermometer and watch: time from dipping it to two thirds of its lift; from memory
lag = { value = "12 s", how = "assumed", spread = "30 %" }
# how much cooler it must be to close again by as much as it opened (typical 2 °C). pan of water: thermometer at first crack, and again where it shuts as it cools; driven: 1 to 2 K
hysteresis = { value = "1.5 °C", how = "assumed", spread = "0.5 °C" }

[hoses]
# bore of the top hose (typical 38 mm). caliper over the spigot, less its wall
top_bore = { value = "38 mm", how = "assumed", spread = "2 mm" }
# bore of the bottom hose (typical 44 mm). caliper over the spigot, less its wall
bottom_bore = { value = "44.4 mm", how = "assumed", spread = "2 mm" }
# loss of each hose with its ends and bends, in dynamic heads (typical 2.5). cannot be measured in the bay; more bends, more loss
loss_coefficient = { value = 2.5, how = "assumed", spread = "25 %" }
# share of the bottom hose''s area lost under suction at 3,000 rpm (typical 0 %). watch it while somebody holds 3,000 rpm; squeeze it cold for the spring
collapse = { value = "0 %", how = "assumed", spread = "0 %" }

[cap]
# pressure stamped on the cap (typical 103 kPa). stamped on the cap; an open system has 0
pressure = { value = "103.4 kPa", how = "assumed", spread = "7 kPa" }
# share of the stamped pressure that it holds (typical 97 %). cap tester, one minute
holds = { value = "95 %", how = "assumed", spread = "5 %" }
# what happens to what it lets out; open overflow | recovery bottle (typical recovery bottle). hose to a bottle below its level: recovery; hose to the road: open
system = { value = "recovery bottle", how = "assumed", spread = "10 %" }

[fill]
# share of concentrate by volume (typical 50 %). refractometer for the right glycol; hydrometer is rougher
concentrate = { value = "50 %", how = "assumed", spread = "6 %" }
# glycol in the concentrate; ethylene | propylene (typical ethylene). label or record; colour says nothing
glycol = { value = "ethylene", how = "assumed", spread = "5 %" }
# volume of the system (typical 15 L). handbook, with heater; measure what goes in
capacity = { value = "16.1 L", how = "assumed", spread = "7 %" }
# share of the volume that is air (typical 0 %). level in the core, cold, not in the bottle; volume refilled against capacity
air = { value = "0 %", how = "assumed", spread = "1 %" }
# share of the coolant that stands in core, tanks and hoses (typical 45 %). what runs out at the petcock over the capacity; 40 to 50 %, from memory
in_core = { value = "45 %", how = "assumed", spread = "5 %" }
# share of the volume that may be missing before tubes run dry and the way over the top is broken (typical 15 %). cannot be measured in the bay; what the upper tank holds above the tubes, over the capacity; judgement
may_be_missing = { value = "15 %", how = "assumed", spread = "4 %" }
# share of the loop that gas from the cylinders fills at full load (typical 0 %). block test; bubbles in the neck that come faster with the throttle
gas = { value = "0 %", how = "assumed", spread = "0 %" }

[gauge]
# where the sender sits; outlet housing | cylinder head | radiator tank (typical outlet housing). follow the wire from the gauge: at the thermostat, in a head by the plugs, or in the radiator
sender_place = { value = "outlet housing", how = "assumed", spread = "0 %" }
# sender above or below what flows past it (typical 0 °C). second thermometer beside it; a poor seat or thread sealer reads low
sender_offset = { value = "0 °C", how = "assumed", spread = "1.5 °C" }
# error of the instrument (typical 0 °C). second thermometer in the neck; sender in hot water
error = { value = "0 °C", how = "assumed", spread = "2 °C" }
# time in which sender and needle follow two thirds of a change (typical 8 s). sender in hot water and a watch; a heated-strip gauge takes 20 to 30 s, a logger 2 to 3, from memory
lag = { value = "8 s", how = "assumed", spread = "50 %" }

[heater]
# heat given to the cabin per kelvin between coolant and outside air, full blower (typical 75 W/K). cannot be measured in the bay; 4 to 6 kW on a cold day, from memory
conductance = { value = "75 W/K", how = "assumed", spread = "25 %" }

[transmission_cooler]
# where the transmission is cooled; none | in the tank | ahead of the core | out of the core''s air (typical in the tank). follow the two pipes from the transmission
place = { value = "in the tank", how = "assumed", spread = "0 %" }
# heat passed on per kelvin (typical 200 W/K). cannot be measured in the bay; from memory
conductance = { value = "200 W/K", how = "assumed", spread = "25 %" }
# heat lost from the transmission''s case per kelvin (typical 25 W/K). cannot be measured in the bay; judgement
case_conductance = { value = "25 W/K", how = "assumed", spread = "25 %" }

[engine]
# fuel; petrol | diesel (typical petrol). label at the filler; spark plugs or injectors
fuel = { value = "petrol", how = "assumed", spread = "0 %" }
# swept volume (typical 5 L). plate, handbook or casting number
displacement = { value = "5 L", how = "assumed", spread = "0.05 L" }
# number of cylinders (typical 8). count the plugs or injectors
cylinders = { value = 8, how = "assumed", spread = 0 }
# speed at hot idle (typical 672 rpm). tachometer
idle_speed = { value = "700 rpm", how = "assumed", spread = "50 rpm" }
# highest speed held on a long climb (typical 3960 rpm). handbook; speed of rated power
top_speed = { value = "4000 rpm", how = "assumed", spread = "200 rpm" }
# brake mean effective pressure at full load, sea level (typical 800 kPa). from rated torque: 4 pi torque / swept volume
full_load_pressure = { value = "740 kPa", how = "assumed", spread = "7 %" }
# share of the fuel''s heat turned into work on the pistons (typical 34.5 %). cannot be measured in the bay; petrol 0.33 to 0.36, diesel 0.42 to 0.46
indicated_efficiency = { value = "34 %", how = "assumed", spread = "1.2 %" }
# mean pressure lost to friction and pumping (typical 150 kPa). cannot be measured in the bay; 1.3 to 1.9 bar, from memory
friction_pressure = { value = "150 kPa", how = "assumed", spread = "12 %" }
# share of the fuel''s heat that goes through cylinder walls, head and ports at a light idle (5 kW a litre) (typical 43 %). cannot be measured in the bay; 0.36 to 0.48 in six logged vehicles, petrol and diesel alike
film_share = { value = "43 %", how = "assumed", spread = "2 %" }
# what makes the mixture of a petrol engine; carburettor | injection (typical carburettor). look under the air filter: a carburettor, or nozzles and a fuel rail
mixture = { value = "carburettor", how = "assumed", spread = "5 %" }
# share of the fuel that leaves a carburettor engine unburnt at idle (typical 12 %). exhaust analyser at hot idle: 1 % CO is about 3.5 %, 3 % CO about 11 %, from memory
unburnt_idle = { value = "12 %", how = "assumed", spread = "3 %" }
# ignition or injection later than right, in crank angle (typical 0 deg). timing light, vacuum hose off and plugged; then the advance sweep
late_ignition = { value = "2 deg", how = "assumed", spread = "3 deg" }
# heat to the coolant under load with this mixture over that with the right one (typical 1). cannot be measured in the bay; lean or rich gives 0.95 to 1.10, from memory
mixture_heat = { value = 1, how = "assumed", spread = 0.02 }
# back pressure at full load beyond a healthy exhaust (typical 0 kPa). gauge ahead of the silencer: under 2 psi at load is healthy
exhaust_back_pressure = { value = "0 kPa", how = "assumed", spread = "0 kPa" }
# power of alternator, steering pump and the like (typical 0.9 kW). cannot be measured in the bay; judgement
accessories = { value = "1.04 kW", how = "assumed", spread = "30 %" }
# clear area of the water jackets, loss of one dynamic head (typical 0.0007 m2). cannot be measured in the bay; sediment makes it small
jacket_area = { value = "7 cm2", how = "assumed", spread = "20 %" }
# heat lost from the outside of the engine per kelvin (typical 30 W/K). cannot be measured in the bay; judgement
surface_conductance = { value = "47 W/K", how = "assumed", spread = "25 %" }
# idle speed stone cold over that when hot (typical 1.6). tachometer after a cold start, choke in: fast idle over hot idle; from memory
cold_idle = { value = 1.6, how = "assumed", spread = 0.2 }
# mass of the engine''s iron and aluminium over its swept volume (typical 47 kg/L). handbook: mass of the bare engine over its litres; iron V8 46 kg/L, small fours more, from memory
metal = { value = "47 kg/L", how = "assumed", spread = "20 %" }
# share of that mass that is aluminium (typical 10 %). magnet on heads and block
aluminium = { value = "10 %", how = "assumed", spread = "5 %" }
# share of that mass that warms with the coolant: what the gas heats of heads and bores (typical 12 %). cannot be measured in the bay; logged warm-ups ask for 0.10 to 0.20
jacket_share = { value = "12 %", how = "assumed", spread = "2.5 %" }
# that metal above the coolant, in the mean, at full load (typical 32 °C). cannot be measured in the bay; judgement: shut down hot, the gauge then rises by the 5 to 10 K that are told
metal_above_coolant = { value = "32 °C", how = "assumed", spread = "7 °C" }
# oil in the sump over swept volume (typical 1). handbook: oil fill over the litres of the engine
oil_volume = { value = 1, how = "assumed", spread = "15 %" }
# share of the gas film''s heat that goes to oil and lower block, besides all friction (typical 6 %). cannot be measured in the bay; judgement
oil_share = { value = "6 %", how = "assumed", spread = "2 %" }
# oil above the coolant at full load and highest speed (typical 34 °C). oil thermometer at the sump after a long climb, less the coolant
oil_above_coolant = { value = "34 °C", how = "assumed", spread = "5 °C" }

[drivetrain]
# gearbox; manual | automatic (typical automatic). count the pedals
kind = { value = "automatic", how = "assumed", spread = "0 %" }
# propeller shaft turns per wheel turn (typical 3.4). tag on the axle; turns of the shaft for one turn of both wheels
axle_ratio = { value = 3.4, how = "assumed", spread = 0.25 }
# rolling radius of the driven tyres (typical 345 mm). hub centre to the ground, loaded
tyre_radius = { value = "356 mm", how = "assumed", spread = "10 mm" }
# ratio of the highest gear (typical 1). handbook; overdrive is below 1
top_ratio = { value = 1, how = "assumed", spread = 0 }
# ratio of the next lower gear (typical 1.48). handbook
second_ratio = { value = 1.5, how = "assumed", spread = 0.03 }
# ratio of the gear below that (typical 2.48). handbook
third_ratio = { value = 2.48, how = "assumed", spread = 0.05 }
# share of the power that reaches the wheels, converter slip not counted (typical 89 %). cannot be measured in the bay; automatic 0.88, manual 0.92, from memory
efficiency = { value = "89 %", how = "assumed", spread = "1.5 %" }
# engine speed with the converter stalled at full load (typical 1800 rpm). handbook; do not try it on a hot engine
stall_speed = { value = "1800 rpm", how = "assumed", spread = "150 rpm" }
# converter locks in the highest gear (typical no). handbook; the speed drops once more after the last shift
lock_up = { value = false, how = "assumed", spread = "0 %" }
# mass of the gearbox with its fluid (typical 75 kg). handbook; from memory
gearbox_mass = { value = "75 kg", how = "assumed", spread = "25 %" }

[body]
# mass with people and load (typical 2000 kg). weighbridge; plate plus people and load
mass = { value = "2130 kg", how = "assumed", spread = "7 %" }
# drag coefficient times frontal area (typical 1 m2). width x height x 0.85 times 0.4 to 0.6; from memory
drag_area = { value = "1.25 m2", how = "assumed", spread = "10 %" }
# rolling resistance over weight (typical 0.015). radial 0.010 to 0.014, bias-ply 0.015 to 0.020, from memory; dragging brakes add
rolling_resistance = { value = 0.015, how = "assumed", spread = "13 %" }

[doubts]
# heat transfer to the air over the published relation (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
air_heat_transfer = { value = 1, how = "assumed", spread = "10 %" }
# air pressure drop of the core over the published relation (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
air_friction = { value = 1, how = "assumed", spread = "15 %" }
# Reynolds number at which the tubes leave laminar flow (typical 2300). cannot be measured in the bay; readings of this vehicle narrow it
transition_reynolds = { value = 2300, how = "assumed", spread = 400 }
# heat transfer in the tubes over that of smooth ones (typical 1.2). cannot be measured in the bay; readings of this vehicle narrow it
tube_enhancement = { value = 1.2, how = "assumed", spread = "12 %" }
# heat of film and friction over what the engine''s figures give (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
coolant_heat = { value = 1, how = "assumed", spread = "9 %" }
# power of the fuel with which the heat through the gas film grows (typical 0.7). cannot be measured in the bay; readings of this vehicle narrow it
film_power = { value = 0.7, how = "assumed", spread = 0.04 }
# share of friction and pumping that stays in the engine as heat (typical 90 %). cannot be measured in the bay; readings of this vehicle narrow it
friction_share = { value = "90 %", how = "assumed", spread = "8 %" }
# warmth of the air around a standing engine over that of its coolant, both above ambient (typical 78 %). cannot be measured in the bay; readings of this vehicle narrow it
bay_warmth = { value = "78 %", how = "assumed", spread = "5 %" }
# air that drifts through a hot core with the fan still and no wind (typical 0.252 km/h). cannot be measured in the bay; readings of this vehicle narrow it
still_air = { value = "0.252 km/h", how = "assumed", spread = "30 %" }
# pressure of the fan over its stated curve, as fitted (typical 1). cannot be measured in the bay; readings of this vehicle narrow it
fan_pressure = { value = 1, how = "assumed", spread = "12 %" }
# share of its pressure that a fan without a shroud keeps, air drawn in past the core counted apart (typical 86 %). cannot be measured in the bay; so that a cowl adds the third of air that was measured standing (car_reports1936)
bare_fan_pressure = { value = "86 %", how = "assumed", spread = "4 %" }
# growth of the circle that blades without a shroud draw through, over their distance from the core (typical 0.8). cannot be measured in the bay; readings of this vehicle narrow it
bare_fan_widening = { value = 0.8, how = "assumed", spread = 0.2 }
# how far from the tips of blades without a shroud air slips in past the core (typical 30 mm). cannot be measured in the bay; readings of this vehicle narrow it
bare_fan_rim = { value = "30 mm", how = "assumed", spread = "15 %" }
# air at the grille above the shade, standing among cars on hot asphalt (typical 5 °C). cannot be measured in the bay; 3 to 8 K; thermometer at the grille in the queue against one in the shade
hot_ground = { value = "5 °C", how = "assumed", spread = "1.7 °C" }
# liquid that steam carries out of an open neck over its own mass (typical 0.5). cannot be measured in the bay; 0.45 and 0.57 on a stand (car_reports1922)
carry_out_open = { value = 0.5, how = "assumed", spread = "50 %" }
# liquid that steam carries past a pressure cap over its own mass (typical 1). cannot be measured in the bay; judgement
carry_out_pressed = { value = 1, how = "assumed", spread = "78 %" }

[[duty]]
name = "usual"
# air temperature outside (typical 32 °C). thermometer in the shade, not the sun on the car
ambient = { value = "26.7 °C", how = "assumed", spread = "1 °C" }
# height above the sea (typical 100 m). map
altitude = { value = "100 m", how = "assumed", spread = "30 m" }
# relative humidity (typical 40 %). weather report; of little weight
humidity = { value = "40 %", how = "assumed", spread = "10 %" }
# road speed (typical 0 km/h). speedometer or phone
speed = { value = "88.5 km/h", how = "assumed", spread = "0 km/h" }
# wind against the nose (typical 0 km/h). weather report; following wind is negative
head_wind = { value = "0 km/h", how = "assumed", spread = "3.6 km/h" }
# rise of the road over its length on the map (typical 0 %). map: height gained over distance
grade = { value = "0 %", how = "assumed", spread = "0 %" }
# air conditioning on (typical no). switch
air_conditioning = { value = false, how = "assumed", spread = "0 %" }
# heater; off | half | full (typical off). lever and blower; full: warmest and fastest
heater = { value = "off", how = "assumed", spread = "0 %" }
# gear; as needed | highest | next lower | low (typical as needed). lever
gear = { value = "as needed", how = "assumed", spread = "0 %" }
# engine speed held by hand or governor; 0: as geared, or idle (typical 0 rpm). tachometer
engine_speed = { value = "0 rpm", how = "assumed", spread = "0 rpm" }
# automatic held on the brake in gear at standstill (typical no). lever
in_gear = { value = false, how = "assumed", spread = "0 %" }
# stands or crawls among cars on hot asphalt (typical no). a queue on a sunny day: the air at the grille is then some 5 K above the shade
among_cars = { value = false, how = "assumed", spread = "0 %" }
# power taken by a shaft at standstill or at work: pump, generator, implement (typical 0 kW). plate of the driven machine; fuel used an hour
shaft_load = { value = "0 kW", how = "assumed", spread = "0 kW" }
# mass of the trailer (typical 0 kg). weighbridge
trailer_mass = { value = "0 kg", how = "assumed", spread = "0 kg" }
# drag area added by the trailer (typical 0 m2). box 1.2 to 1.6 m2, from memory
trailer_drag_area = { value = "0 m2", how = "assumed", spread = "0 m2" }

[confirmed]
causes = ["gauge lies", "coolant low or air trapped"]
contributing = ["cap weak"]
how = "second thermometer"
','');
CREATE INDEX note_of_job ON note (job);
CREATE TRIGGER no_update_of_job BEFORE UPDATE ON job BEGIN SELECT RAISE(ABORT, 'a job is never changed or taken out'); END;
CREATE TRIGGER no_delete_of_job BEFORE DELETE ON job BEGIN SELECT RAISE(ABORT, 'a job is never changed or taken out'); END;
CREATE TRIGGER no_update_of_revision BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'a revision is never changed or taken out'); END;
CREATE TRIGGER no_delete_of_revision BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'a revision is never changed or taken out'); END;
CREATE TRIGGER no_update_of_note BEFORE UPDATE ON note BEGIN SELECT RAISE(ABORT, 'a note is never changed or taken out'); END;
CREATE TRIGGER no_delete_of_note BEFORE DELETE ON note BEGIN SELECT RAISE(ABORT, 'a note is never changed or taken out'); END;
CREATE TRIGGER no_update_of_attachment BEFORE UPDATE ON attachment BEGIN SELECT RAISE(ABORT, 'a attachment is never changed or taken out'); END;
CREATE TRIGGER no_delete_of_attachment BEFORE DELETE ON attachment BEGIN SELECT RAISE(ABORT, 'a attachment is never changed or taken out'); END;
CREATE INDEX answer_of_job ON answer (job);
CREATE TRIGGER no_update_of_answer BEFORE UPDATE ON answer BEGIN SELECT RAISE(ABORT, 'a answer is never changed or taken out'); END;
CREATE TRIGGER no_delete_of_answer BEFORE DELETE ON answer BEGIN SELECT RAISE(ABORT, 'a answer is never changed or taken out'); END;
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('answer',0);
INSERT INTO "sqlite_sequence" VALUES('job',2);
INSERT INTO "sqlite_sequence" VALUES('note',7);
COMMIT;
