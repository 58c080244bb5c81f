BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE boat_parts (
	version_id INTEGER NOT NULL, 
	part_version_id INTEGER NOT NULL, 
	CONSTRAINT pk_boat_parts PRIMARY KEY (version_id, part_version_id), 
	CONSTRAINT fk_boat_parts_version_id FOREIGN KEY(version_id) REFERENCES versions (id), 
	CONSTRAINT fk_boat_parts_part_version_id FOREIGN KEY(part_version_id) REFERENCES part_versions (id)
);
INSERT INTO "boat_parts" VALUES(1,1);
INSERT INTO "boat_parts" VALUES(1,2);
INSERT INTO "boat_parts" VALUES(1,3);
INSERT INTO "boat_parts" VALUES(1,4);
INSERT INTO "boat_parts" VALUES(1,5);
INSERT INTO "boat_parts" VALUES(2,1);
INSERT INTO "boat_parts" VALUES(2,2);
INSERT INTO "boat_parts" VALUES(2,3);
INSERT INTO "boat_parts" VALUES(2,4);
INSERT INTO "boat_parts" VALUES(2,5);
INSERT INTO "boat_parts" VALUES(3,1);
INSERT INTO "boat_parts" VALUES(3,2);
INSERT INTO "boat_parts" VALUES(3,3);
INSERT INTO "boat_parts" VALUES(3,4);
INSERT INTO "boat_parts" VALUES(3,5);
CREATE TABLE part_versions (
	id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	content_hash VARCHAR(16) NOT NULL, 
	content TEXT NOT NULL, 
	CONSTRAINT pk_part_versions PRIMARY KEY (id), 
	CONSTRAINT fk_part_versions_part_id FOREIGN KEY(part_id) REFERENCES parts (id), 
	CONSTRAINT uq_part_versions_part_id UNIQUE (part_id, content_hash)
);
INSERT INTO "part_versions" VALUES(1,1,'d8314e9013c197ba','{"beam_m": 1.15, "bow_beam_share": 0.45, "bow_exponent": 1.0, "bow_rise_m": 0.22, "depth_m": 0.36, "drag_area_m2": 0.3, "form_factor": 1.1, "greatest_beam_share": 0.5, "id": "pipkin-hull-1", "length_m": 3.05, "planing_share": 0.7, "section_exponent": 2.2, "stern_rise_m": 0.05, "transom_beam_share": 0.8, "wave_share": 0.6}');
INSERT INTO "part_versions" VALUES(2,2,'c47526405f688916','{"area_m2": 0.115, "below_keel_m": 0.88, "below_keel_se_m": 0.005, "control": "whole", "id": "pipkin-main-1", "incidence_deg": 1.5, "incidence_se_deg": 0.3, "pivot_share": 0.3, "section": "NACA 2412", "span_m": 0.98, "span_se_m": 0.003, "strut_chord_m": 0.115, "strut_thickness_share": 0.12, "taper": 0.5, "x_m": 1.72}');
INSERT INTO "part_versions" VALUES(3,3,'c3751a59bc6bc2d1','{"area_m2": 0.072, "below_keel_m": 0.86, "below_keel_se_m": 0.005, "id": "pipkin-rudder-1", "incidence_deg": 1.0, "incidence_se_deg": 0.3, "section": "NACA 0012", "span_m": 0.8, "span_se_m": 0.003, "strut_chord_m": 0.105, "strut_thickness_share": 0.12, "taper": 0.5, "x_m": -0.25}');
INSERT INTO "part_versions" VALUES(4,4,'367e68190dd8f3e7','{"effort_x_m": 1.45, "effort_z_m": 2.35, "id": "pipkin-rig-1", "mast_drag_area_m2": 0.08, "mast_height_m": 4.4, "sail_area_m2": 5.6}');
INSERT INTO "part_versions" VALUES(5,5,'8512ec379d972de2','{"aft_stop_deg": 82.0, "bend_deg_per_n_m": 0.0, "forward_stop_deg": 0.0, "friction_n_m": 0.0, "id": "pipkin-wand-1", "length_m": 1.05, "length_se_m": 0.005, "mass_kg": 0.15, "paddle_length_m": 0.1, "paddle_width_m": 0.045, "pivot_x_m": 3.1, "pivot_z_m": 0.36, "pivot_z_se_m": 0.005, "stick_width_m": 0.01, "tension_n_m": 2.5, "time_constant_s": 0.05}');
CREATE TABLE parts (
	id INTEGER NOT NULL, 
	kind VARCHAR(12) NOT NULL, 
	name VARCHAR(80) NOT NULL, 
	CONSTRAINT pk_parts PRIMARY KEY (id), 
	CONSTRAINT uq_parts_kind UNIQUE (kind, name)
);
INSERT INTO "parts" VALUES(1,'hull','pipkin-hull-1');
INSERT INTO "parts" VALUES(2,'main_foil','pipkin-main-1');
INSERT INTO "parts" VALUES(3,'rudder','pipkin-rudder-1');
INSERT INTO "parts" VALUES(4,'rig','pipkin-rig-1');
INSERT INTO "parts" VALUES(5,'wand','pipkin-wand-1');
CREATE TABLE people (
	number INTEGER NOT NULL, 
	details TEXT, 
	"before" TEXT, 
	erased_at VARCHAR(27), 
	CONSTRAINT pk_people PRIMARY KEY (number)
);
INSERT INTO "people" VALUES(6994824,'{"name": "Teasel", "mass_kg": 43}','[{"name": "Teasel", "mass_kg": 41}]',NULL);
INSERT INTO "people" VALUES(7280132,NULL,NULL,'2026-11-25T03:40:03.858753Z');
CREATE TABLE things (
	id INTEGER NOT NULL, 
	kind VARCHAR(12) NOT NULL, 
	name VARCHAR(80) NOT NULL, 
	CONSTRAINT pk_things PRIMARY KEY (id), 
	CONSTRAINT ck_things_ck_things_kind CHECK (kind IN ('boat', 'day', 'bench-sheet', 'card')), 
	CONSTRAINT uq_things_kind UNIQUE (kind, name)
);
INSERT INTO "things" VALUES(1,'boat','Pipkin');
INSERT INTO "things" VALUES(2,'bench-sheet','Pipkin, sheet.csv');
INSERT INTO "things" VALUES(3,'card','Pipkin, a day');
INSERT INTO "things" VALUES(4,'day','a day');
CREATE TABLE trail (
	id INTEGER NOT NULL, 
	at VARCHAR(27) NOT NULL, 
	"by" VARCHAR(60) NOT NULL, 
	verb VARCHAR(12) NOT NULL, 
	thing_id INTEGER, 
	version_id INTEGER, 
	person_number INTEGER, 
	undoes INTEGER, 
	CONSTRAINT pk_trail PRIMARY KEY (id), 
	CONSTRAINT fk_trail_thing_id FOREIGN KEY(thing_id) REFERENCES things (id), 
	CONSTRAINT fk_trail_person_number FOREIGN KEY(person_number) REFERENCES people (number), 
	CONSTRAINT fk_trail_undoes FOREIGN KEY(undoes) REFERENCES trail (id), 
	CONSTRAINT ck_trail_ck_trail_verb CHECK (verb IN ('save', 'undo', 'erase', 'name'))
);
INSERT INTO "trail" VALUES(1,'2026-11-25T03:40:03.144399Z','shed','save',1,1,NULL,NULL);
INSERT INTO "trail" VALUES(2,'2026-11-25T03:40:03.345722Z','her','save',1,2,NULL,NULL);
INSERT INTO "trail" VALUES(3,'2026-11-25T03:40:03.441056Z','him','save',1,3,NULL,NULL);
INSERT INTO "trail" VALUES(4,'2026-11-25T03:40:03.489010Z','him','save',1,4,NULL,NULL);
INSERT INTO "trail" VALUES(5,'2026-11-25T03:40:03.491423Z','him','undo',1,4,NULL,4);
INSERT INTO "trail" VALUES(6,'2026-11-25T03:40:03.493892Z','bosun','save',2,5,NULL,NULL);
INSERT INTO "trail" VALUES(7,'2026-11-25T03:40:03.499740Z','shed','name',NULL,NULL,6994824,NULL);
INSERT INTO "trail" VALUES(8,'2026-11-25T03:40:03.507202Z','shed','name',NULL,NULL,6994824,NULL);
INSERT INTO "trail" VALUES(9,'2026-11-25T03:40:03.512759Z','shed','save',3,6,6994824,NULL);
INSERT INTO "trail" VALUES(10,'2026-11-25T03:40:03.651563Z','shed','save',4,7,NULL,NULL);
INSERT INTO "trail" VALUES(11,'2026-11-25T03:40:03.747215Z','shed','name',NULL,NULL,7280132,NULL);
INSERT INTO "trail" VALUES(12,'2026-11-25T03:40:03.858753Z','shed','erase',NULL,NULL,7280132,NULL);
CREATE TABLE versions (
	id INTEGER NOT NULL, 
	thing_id INTEGER NOT NULL, 
	parent_id INTEGER, 
	content_hash VARCHAR(16) NOT NULL, 
	text TEXT NOT NULL, 
	made_at VARCHAR(27) NOT NULL, 
	made_by VARCHAR(60) NOT NULL, 
	boat_version_id INTEGER, 
	person_number INTEGER, 
	taken_back INTEGER, 
	CONSTRAINT pk_versions PRIMARY KEY (id), 
	CONSTRAINT fk_versions_thing_id FOREIGN KEY(thing_id) REFERENCES things (id), 
	CONSTRAINT fk_versions_parent_id FOREIGN KEY(parent_id) REFERENCES versions (id), 
	CONSTRAINT fk_versions_boat_version_id FOREIGN KEY(boat_version_id) REFERENCES versions (id), 
	CONSTRAINT fk_versions_person_number FOREIGN KEY(person_number) REFERENCES people (number), 
	CONSTRAINT fk_versions_taken_back FOREIGN KEY(taken_back) REFERENCES trail (id)
);
INSERT INTO "versions" VALUES(1,1,NULL,'2f089b1078451362','# Pipkin: an invented boat. Every number here is invented; none was measured, none belongs to a real boat, class or
# builder. It is a wide boat for one junior: the whole main foil pivots, the rod has a fixed length, the wand slides and
# the rudder is fixed.
#
# x is metres forward of the transom, z metres up from the keel line (the reference line along the hull bottom).
# Beside any measured number length_m may stand its standard error, length_se_m. What is left out is taken from the
# form of boat and named as assumed.

format = "foilwright/boat"
version = 1
name = "Pipkin"
form = "wide"
notes = "Invented, for demonstration, tutorial and tests."

[reference]
words = "the keel line itself"
keel_line_deg = 0.0

[mass] # rigged, foils and sail on, nobody aboard
mass_kg = 38.0
mass_se_kg = 0.5
x_m = 1.50
x_se_m = 0.02
z_m = 0.30
pitch_radius_m = 0.9

[crew] # everyone aboard together, in wet kit
usual_mass_kg = 48.0
least_mass_kg = 35.0
greatest_mass_kg = 60.0
x_m = 1.30
z_m = 0.65
out_m = 1.2 # fully hiked
drag_area_m2 = 0.30

[hull]
id = "pipkin-hull-1"
length_m = 3.05
beam_m = 1.15 # at the deck
depth_m = 0.36
greatest_beam_share = 0.5
bow_exponent = 1.0
bow_beam_share = 0.45
transom_beam_share = 0.8
bow_rise_m = 0.22
stern_rise_m = 0.05
section_exponent = 2.2
form_factor = 1.10
wave_share = 0.6
planing_share = 0.7
drag_area_m2 = 0.30

[main_foil]
id = "pipkin-main-1"
control = "whole"
x_m = 1.72
below_keel_m = 0.88
below_keel_se_m = 0.005
span_m = 0.98
span_se_m = 0.003
area_m2 = 0.115
taper = 0.5
section = "NACA 2412"
incidence_deg = 1.5
incidence_se_deg = 0.3
pivot_share = 0.3
strut_chord_m = 0.115
strut_thickness_share = 0.12

[rudder]
id = "pipkin-rudder-1"
x_m = -0.25 # behind the transom
below_keel_m = 0.86
below_keel_se_m = 0.005
span_m = 0.80
span_se_m = 0.003
area_m2 = 0.072
taper = 0.5
section = "NACA 0012"
incidence_deg = 1.0
incidence_se_deg = 0.3
strut_chord_m = 0.105
strut_thickness_share = 0.12

[rig]
id = "pipkin-rig-1"
sail_area_m2 = 5.6
mast_height_m = 4.4 # above the deck
effort_x_m = 1.45
effort_z_m = 2.35
mast_drag_area_m2 = 0.08

[wand]
id = "pipkin-wand-1"
length_m = 1.05
length_se_m = 0.005
pivot_x_m = 3.10
pivot_z_m = 0.36
pivot_z_se_m = 0.005
forward_stop_deg = 0.0
aft_stop_deg = 82.0
paddle_length_m = 0.100
paddle_width_m = 0.045
stick_width_m = 0.010
mass_kg = 0.15
tension_n_m = 2.5
friction_n_m = 0.0
bend_deg_per_n_m = 0.0
time_constant_s = 0.05

# The chain in its drawing position: the wand at 45 deg, the foil at +1.5 deg, which is also its incidence at the mark.
# Directions of arms from forward towards up: 90 is up, 180 aft, -90 down. The rods are as long as the drawing has them.
[chain]
wand_deg = 45.0
foil_deg = 1.5
foil_least_deg = -3.0
foil_greatest_deg = 6.0

[[chain.cranks]]
name = "wand-crank" # turns on the wand''s pivot
out_arm_m = 0.020
out_direction_deg = -90.0

[[chain.cranks]]
name = "bell-crank"
pivot_x_m = 1.720
pivot_z_m = 0.360
in_arm_m = 0.055
in_direction_deg = 90.0
out_arm_m = 0.018
out_direction_deg = 180.0

[[chain.cranks]]
name = "foil-horn"
pivot_x_m = 1.712
pivot_z_m = -0.880
in_arm_m = 0.050
in_direction_deg = 180.0

[[chain.rods]]
name = "wand-rod" # wand crank to bell crank, of fixed length
play_mm = 0.1 # in each joint, new
stretch_mm_per_n = 0.0

[[chain.rods]]
name = "strut-rod" # bell crank to the foil''s horn, down the strut
play_mm = 0.1
stretch_mm_per_n = 0.0

[[adjusters]]
name = "wand-length"
one_step = "one hole"
how = "pull the pin, slide the wand down, push the pin in"
more = "a longer wand: flies higher"
who = "sailor or coach"
when = "stopped"
mark = "wand showing above its clamp"
mark_mm = 160.0
mark_mm_per_step = -30.0
lock = "pin through and taped"
least = -4
greatest = 4
changes = [{ number = "wand.length_m", per_step = 0.030 }]

[[adjusters]]
name = "wand-tension"
one_step = "one knot in the elastic"
how = "pull the tail to the next knot"
more = "the wand is held harder on the water"
who = "sailor or coach"
when = "stopped"
mark = "tail outside the cleat"
mark_mm = 120.0
mark_mm_per_step = 25.0
lock = "knot behind the cleat"
least = -3
greatest = 6
changes = [{ number = "wand.tension_n_m", per_step = 0.4 }]

[[adjusters]]
name = "sailor-aft"
choice = true
one_step = "100 mm aft"
how = "sit further aft"
more = "further aft: bow up, takes off earlier, flies higher"
who = "sailor"
when = "flying"
mark = "front thigh at the tape on the rack"
mark_mm = 0.0
mark_mm_per_step = 100.0
least = -3
greatest = 3
changes = [{ number = "crew.x_m", per_step = -0.1 }]
','2026-11-25T03:40:03.144399Z','shed',NULL,NULL,NULL);
INSERT INTO "versions" VALUES(2,1,1,'a7c154e11c528e3d','# as her has it
# Pipkin: an invented boat. Every number here is invented; none was measured, none belongs to a real boat, class or
# builder. It is a wide boat for one junior: the whole main foil pivots, the rod has a fixed length, the wand slides and
# the rudder is fixed.
#
# x is metres forward of the transom, z metres up from the keel line (the reference line along the hull bottom).
# Beside any measured number length_m may stand its standard error, length_se_m. What is left out is taken from the
# form of boat and named as assumed.

format = "foilwright/boat"
version = 1
name = "Pipkin"
form = "wide"
notes = "Invented, for demonstration, tutorial and tests."

[reference]
words = "the keel line itself"
keel_line_deg = 0.0

[mass] # rigged, foils and sail on, nobody aboard
mass_kg = 38.0
mass_se_kg = 0.5
x_m = 1.50
x_se_m = 0.02
z_m = 0.30
pitch_radius_m = 0.9

[crew] # everyone aboard together, in wet kit
usual_mass_kg = 48.0
least_mass_kg = 35.0
greatest_mass_kg = 60.0
x_m = 1.30
z_m = 0.65
out_m = 1.2 # fully hiked
drag_area_m2 = 0.30

[hull]
id = "pipkin-hull-1"
length_m = 3.05
beam_m = 1.15 # at the deck
depth_m = 0.36
greatest_beam_share = 0.5
bow_exponent = 1.0
bow_beam_share = 0.45
transom_beam_share = 0.8
bow_rise_m = 0.22
stern_rise_m = 0.05
section_exponent = 2.2
form_factor = 1.10
wave_share = 0.6
planing_share = 0.7
drag_area_m2 = 0.30

[main_foil]
id = "pipkin-main-1"
control = "whole"
x_m = 1.72
below_keel_m = 0.88
below_keel_se_m = 0.005
span_m = 0.98
span_se_m = 0.003
area_m2 = 0.115
taper = 0.5
section = "NACA 2412"
incidence_deg = 1.5
incidence_se_deg = 0.3
pivot_share = 0.3
strut_chord_m = 0.115
strut_thickness_share = 0.12

[rudder]
id = "pipkin-rudder-1"
x_m = -0.25 # behind the transom
below_keel_m = 0.86
below_keel_se_m = 0.005
span_m = 0.80
span_se_m = 0.003
area_m2 = 0.072
taper = 0.5
section = "NACA 0012"
incidence_deg = 1.0
incidence_se_deg = 0.3
strut_chord_m = 0.105
strut_thickness_share = 0.12

[rig]
id = "pipkin-rig-1"
sail_area_m2 = 5.6
mast_height_m = 4.4 # above the deck
effort_x_m = 1.45
effort_z_m = 2.35
mast_drag_area_m2 = 0.08

[wand]
id = "pipkin-wand-1"
length_m = 1.05
length_se_m = 0.005
pivot_x_m = 3.10
pivot_z_m = 0.36
pivot_z_se_m = 0.005
forward_stop_deg = 0.0
aft_stop_deg = 82.0
paddle_length_m = 0.100
paddle_width_m = 0.045
stick_width_m = 0.010
mass_kg = 0.15
tension_n_m = 2.5
friction_n_m = 0.0
bend_deg_per_n_m = 0.0
time_constant_s = 0.05

# The chain in its drawing position: the wand at 45 deg, the foil at +1.5 deg, which is also its incidence at the mark.
# Directions of arms from forward towards up: 90 is up, 180 aft, -90 down. The rods are as long as the drawing has them.
[chain]
wand_deg = 45.0
foil_deg = 1.5
foil_least_deg = -3.0
foil_greatest_deg = 6.0

[[chain.cranks]]
name = "wand-crank" # turns on the wand''s pivot
out_arm_m = 0.020
out_direction_deg = -90.0

[[chain.cranks]]
name = "bell-crank"
pivot_x_m = 1.720
pivot_z_m = 0.360
in_arm_m = 0.055
in_direction_deg = 90.0
out_arm_m = 0.018
out_direction_deg = 180.0

[[chain.cranks]]
name = "foil-horn"
pivot_x_m = 1.712
pivot_z_m = -0.880
in_arm_m = 0.050
in_direction_deg = 180.0

[[chain.rods]]
name = "wand-rod" # wand crank to bell crank, of fixed length
play_mm = 0.1 # in each joint, new
stretch_mm_per_n = 0.0

[[chain.rods]]
name = "strut-rod" # bell crank to the foil''s horn, down the strut
play_mm = 0.1
stretch_mm_per_n = 0.0

[[adjusters]]
name = "wand-length"
one_step = "one hole"
how = "pull the pin, slide the wand down, push the pin in"
more = "a longer wand: flies higher"
who = "sailor or coach"
when = "stopped"
mark = "wand showing above its clamp"
mark_mm = 160.0
mark_mm_per_step = -30.0
lock = "pin through and taped"
least = -4
greatest = 4
changes = [{ number = "wand.length_m", per_step = 0.030 }]

[[adjusters]]
name = "wand-tension"
one_step = "one knot in the elastic"
how = "pull the tail to the next knot"
more = "the wand is held harder on the water"
who = "sailor or coach"
when = "stopped"
mark = "tail outside the cleat"
mark_mm = 120.0
mark_mm_per_step = 25.0
lock = "knot behind the cleat"
least = -3
greatest = 6
changes = [{ number = "wand.tension_n_m", per_step = 0.4 }]

[[adjusters]]
name = "sailor-aft"
choice = true
one_step = "100 mm aft"
how = "sit further aft"
more = "further aft: bow up, takes off earlier, flies higher"
who = "sailor"
when = "flying"
mark = "front thigh at the tape on the rack"
mark_mm = 0.0
mark_mm_per_step = 100.0
least = -3
greatest = 3
changes = [{ number = "crew.x_m", per_step = -0.1 }]
','2026-11-25T03:40:03.345722Z','her',NULL,NULL,NULL);
INSERT INTO "versions" VALUES(3,1,1,'7cb196dbc8d76a68','# as him has it
# Pipkin: an invented boat. Every number here is invented; none was measured, none belongs to a real boat, class or
# builder. It is a wide boat for one junior: the whole main foil pivots, the rod has a fixed length, the wand slides and
# the rudder is fixed.
#
# x is metres forward of the transom, z metres up from the keel line (the reference line along the hull bottom).
# Beside any measured number length_m may stand its standard error, length_se_m. What is left out is taken from the
# form of boat and named as assumed.

format = "foilwright/boat"
version = 1
name = "Pipkin"
form = "wide"
notes = "Invented, for demonstration, tutorial and tests."

[reference]
words = "the keel line itself"
keel_line_deg = 0.0

[mass] # rigged, foils and sail on, nobody aboard
mass_kg = 38.0
mass_se_kg = 0.5
x_m = 1.50
x_se_m = 0.02
z_m = 0.30
pitch_radius_m = 0.9

[crew] # everyone aboard together, in wet kit
usual_mass_kg = 48.0
least_mass_kg = 35.0
greatest_mass_kg = 60.0
x_m = 1.30
z_m = 0.65
out_m = 1.2 # fully hiked
drag_area_m2 = 0.30

[hull]
id = "pipkin-hull-1"
length_m = 3.05
beam_m = 1.15 # at the deck
depth_m = 0.36
greatest_beam_share = 0.5
bow_exponent = 1.0
bow_beam_share = 0.45
transom_beam_share = 0.8
bow_rise_m = 0.22
stern_rise_m = 0.05
section_exponent = 2.2
form_factor = 1.10
wave_share = 0.6
planing_share = 0.7
drag_area_m2 = 0.30

[main_foil]
id = "pipkin-main-1"
control = "whole"
x_m = 1.72
below_keel_m = 0.88
below_keel_se_m = 0.005
span_m = 0.98
span_se_m = 0.003
area_m2 = 0.115
taper = 0.5
section = "NACA 2412"
incidence_deg = 1.5
incidence_se_deg = 0.3
pivot_share = 0.3
strut_chord_m = 0.115
strut_thickness_share = 0.12

[rudder]
id = "pipkin-rudder-1"
x_m = -0.25 # behind the transom
below_keel_m = 0.86
below_keel_se_m = 0.005
span_m = 0.80
span_se_m = 0.003
area_m2 = 0.072
taper = 0.5
section = "NACA 0012"
incidence_deg = 1.0
incidence_se_deg = 0.3
strut_chord_m = 0.105
strut_thickness_share = 0.12

[rig]
id = "pipkin-rig-1"
sail_area_m2 = 5.6
mast_height_m = 4.4 # above the deck
effort_x_m = 1.45
effort_z_m = 2.35
mast_drag_area_m2 = 0.08

[wand]
id = "pipkin-wand-1"
length_m = 1.05
length_se_m = 0.005
pivot_x_m = 3.10
pivot_z_m = 0.36
pivot_z_se_m = 0.005
forward_stop_deg = 0.0
aft_stop_deg = 82.0
paddle_length_m = 0.100
paddle_width_m = 0.045
stick_width_m = 0.010
mass_kg = 0.15
tension_n_m = 2.5
friction_n_m = 0.0
bend_deg_per_n_m = 0.0
time_constant_s = 0.05

# The chain in its drawing position: the wand at 45 deg, the foil at +1.5 deg, which is also its incidence at the mark.
# Directions of arms from forward towards up: 90 is up, 180 aft, -90 down. The rods are as long as the drawing has them.
[chain]
wand_deg = 45.0
foil_deg = 1.5
foil_least_deg = -3.0
foil_greatest_deg = 6.0

[[chain.cranks]]
name = "wand-crank" # turns on the wand''s pivot
out_arm_m = 0.020
out_direction_deg = -90.0

[[chain.cranks]]
name = "bell-crank"
pivot_x_m = 1.720
pivot_z_m = 0.360
in_arm_m = 0.055
in_direction_deg = 90.0
out_arm_m = 0.018
out_direction_deg = 180.0

[[chain.cranks]]
name = "foil-horn"
pivot_x_m = 1.712
pivot_z_m = -0.880
in_arm_m = 0.050
in_direction_deg = 180.0

[[chain.rods]]
name = "wand-rod" # wand crank to bell crank, of fixed length
play_mm = 0.1 # in each joint, new
stretch_mm_per_n = 0.0

[[chain.rods]]
name = "strut-rod" # bell crank to the foil''s horn, down the strut
play_mm = 0.1
stretch_mm_per_n = 0.0

[[adjusters]]
name = "wand-length"
one_step = "one hole"
how = "pull the pin, slide the wand down, push the pin in"
more = "a longer wand: flies higher"
who = "sailor or coach"
when = "stopped"
mark = "wand showing above its clamp"
mark_mm = 160.0
mark_mm_per_step = -30.0
lock = "pin through and taped"
least = -4
greatest = 4
changes = [{ number = "wand.length_m", per_step = 0.030 }]

[[adjusters]]
name = "wand-tension"
one_step = "one knot in the elastic"
how = "pull the tail to the next knot"
more = "the wand is held harder on the water"
who = "sailor or coach"
when = "stopped"
mark = "tail outside the cleat"
mark_mm = 120.0
mark_mm_per_step = 25.0
lock = "knot behind the cleat"
least = -3
greatest = 6
changes = [{ number = "wand.tension_n_m", per_step = 0.4 }]

[[adjusters]]
name = "sailor-aft"
choice = true
one_step = "100 mm aft"
how = "sit further aft"
more = "further aft: bow up, takes off earlier, flies higher"
who = "sailor"
when = "flying"
mark = "front thigh at the tape on the rack"
mark_mm = 0.0
mark_mm_per_step = 100.0
least = -3
greatest = 3
changes = [{ number = "crew.x_m", per_step = -0.1 }]
','2026-11-25T03:40:03.441056Z','him',NULL,NULL,NULL);
INSERT INTO "versions" VALUES(4,1,1,'70a49b33b8b6a086','a slip','2026-11-25T03:40:03.489010Z','him',NULL,NULL,5);
INSERT INTO "versions" VALUES(5,2,NULL,'7217ca2edf779eba','reading,1,5
','2026-11-25T03:40:03.493892Z','bosun',1,NULL,NULL);
INSERT INTO "versions" VALUES(6,3,NULL,'44136fa355b3678a','{}','2026-11-25T03:40:03.512759Z','shed',1,6994824,NULL);
INSERT INTO "versions" VALUES(7,4,NULL,'d96a0881b2bfe354','wind = 12
','2026-11-25T03:40:03.651563Z','shed',NULL,NULL,NULL);
CREATE INDEX ix_versions_thing_id ON versions (thing_id);
CREATE INDEX ix_boat_parts_part_version_id ON boat_parts (part_version_id);
COMMIT;
