CREATE TABLE "air_readings" (
	"studio_id" text NOT NULL,
	"spot_id" text NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	"temp_c" double precision NOT NULL,
	"rh" double precision NOT NULL,
	CONSTRAINT "air_readings_studio_id_spot_id_at_pk" PRIMARY KEY("studio_id","spot_id","at")
);
--> statement-breakpoint
CREATE TABLE "busy_times" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"maker_id" text NOT NULL,
	"start" text NOT NULL,
	"end" text NOT NULL,
	CONSTRAINT "busy_times_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "clays" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"drying" jsonb NOT NULL,
	"shrinkage" jsonb NOT NULL,
	"cone_low" text NOT NULL,
	"cone_high" text NOT NULL,
	"on_hand_kg" double precision NOT NULL,
	"deliveries" jsonb NOT NULL,
	CONSTRAINT "clays_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "design_parts" (
	"studio_id" text NOT NULL,
	"design_id" text NOT NULL,
	"id" text NOT NULL,
	"place" integer NOT NULL,
	"name" text NOT NULL,
	"count_per_piece" integer NOT NULL,
	"length_mm" double precision NOT NULL,
	"width_mm" double precision NOT NULL,
	"thickness_mm" double precision NOT NULL,
	"template_state" text NOT NULL,
	"middle_stays_in" boolean NOT NULL,
	CONSTRAINT "design_parts_studio_id_design_id_id_pk" PRIMARY KEY("studio_id","design_id","id")
);
--> statement-breakpoint
CREATE TABLE "design_steps" (
	"studio_id" text NOT NULL,
	"design_id" text NOT NULL,
	"id" text NOT NULL,
	"place" integer NOT NULL,
	"kind" text NOT NULL,
	"name" text NOT NULL,
	"needs" text NOT NULL,
	"setup_min" double precision NOT NULL,
	"min_per_piece" double precision NOT NULL,
	"band" jsonb,
	"part_ids" jsonb NOT NULL,
	"mould_id" text,
	CONSTRAINT "design_steps_studio_id_design_id_id_pk" PRIMARY KEY("studio_id","design_id","id")
);
--> statement-breakpoint
CREATE TABLE "designs" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"clay_id" text NOT NULL,
	"outline" text NOT NULL,
	"length_mm" double precision NOT NULL,
	"width_mm" double precision NOT NULL,
	"height_mm" double precision NOT NULL,
	"corner_radius_mm" double precision NOT NULL,
	"even_out_hours" jsonb NOT NULL,
	"slow_dry_hours" double precision NOT NULL,
	"thickest_mm" double precision NOT NULL,
	"closed_form" boolean NOT NULL,
	"pieces_per_board" integer NOT NULL,
	"most_per_run" integer NOT NULL,
	"bisque_schedule_id" text NOT NULL,
	"glaze_schedule_id" text NOT NULL,
	"glaze_ids" jsonb NOT NULL,
	"glaze_per_piece_l" double precision NOT NULL,
	"losses" jsonb NOT NULL,
	"stacking" jsonb NOT NULL,
	"turns_freely" boolean NOT NULL,
	CONSTRAINT "designs_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "firing_schedules" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"kind" text NOT NULL,
	"cone" text,
	"cone_type" text,
	"segments" jsonb NOT NULL,
	"cooling_segments" jsonb,
	CONSTRAINT "firing_schedules_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "glazes" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"cone_low" text NOT NULL,
	"cone_high" text NOT NULL,
	"food_safe_tested" boolean NOT NULL,
	"on_hand_l" double precision,
	CONSTRAINT "glazes_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "hours" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"maker_id" text NOT NULL,
	"purpose" text NOT NULL,
	"rrule" text NOT NULL,
	"start_date" text NOT NULL,
	"start_time" text NOT NULL,
	"duration_min" integer NOT NULL,
	"except_dates" jsonb NOT NULL,
	"extra_dates" jsonb NOT NULL,
	CONSTRAINT "hours_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "kilns" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"supply_id" text NOT NULL,
	"space" jsonb NOT NULL,
	"firing" jsonb NOT NULL,
	"fires" jsonb NOT NULL,
	"load_min" integer NOT NULL,
	"unload_min" integer NOT NULL,
	CONSTRAINT "kilns_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "learned" (
	"studio_id" text NOT NULL,
	"parameter" text NOT NULL,
	"subject" text NOT NULL,
	"value" double precision NOT NULL,
	"spread" double precision NOT NULL,
	"spread_kind" text NOT NULL,
	"observation_count" integer NOT NULL,
	"log_position" integer NOT NULL,
	CONSTRAINT "learned_studio_id_parameter_subject_pk" PRIMARY KEY("studio_id","parameter","subject")
);
--> statement-breakpoint
CREATE TABLE "log_entries" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"position" integer NOT NULL,
	"version" integer NOT NULL,
	"kind" text NOT NULL,
	"happened_at" timestamp (3) with time zone NOT NULL,
	"rough_min" integer NOT NULL,
	"device_id" text NOT NULL,
	"device_seq" bigint NOT NULL,
	"by" text,
	"body" jsonb NOT NULL,
	"hint" jsonb,
	"received_at" timestamp (3) with time zone DEFAULT clock_timestamp() NOT NULL,
	CONSTRAINT "log_entries_studio_id_id_pk" PRIMARY KEY("studio_id","id"),
	CONSTRAINT "log_entries_position" UNIQUE("studio_id","position")
);
--> statement-breakpoint
CREATE TABLE "makers" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"skills" jsonb NOT NULL,
	CONSTRAINT "makers_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "moulds" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"count" integer NOT NULL,
	CONSTRAINT "moulds_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "order_lines" (
	"studio_id" text NOT NULL,
	"order_id" text NOT NULL,
	"id" text NOT NULL,
	"place" integer NOT NULL,
	"design_id" text NOT NULL,
	"glaze_id" text,
	"count" integer NOT NULL,
	CONSTRAINT "order_lines_studio_id_order_id_id_pk" PRIMARY KEY("studio_id","order_id","id")
);
--> statement-breakpoint
CREATE TABLE "orders" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"kind" text NOT NULL,
	"name" text NOT NULL,
	"due_date" text NOT NULL,
	"weight" double precision NOT NULL,
	"odds_wanted" double precision NOT NULL,
	CONSTRAINT "orders_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "pins" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"run_id" text NOT NULL,
	"step_id" text NOT NULL,
	"starts_at" timestamp (3) with time zone NOT NULL,
	"maker_id" text,
	CONSTRAINT "pins_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "plans" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"log_position" integer NOT NULL,
	"input" json NOT NULL,
	"plan" json NOT NULL,
	"made_at" timestamp (3) with time zone DEFAULT clock_timestamp() NOT NULL,
	"number" integer NOT NULL,
	CONSTRAINT "plans_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "spots" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"board_count" integer NOT NULL,
	"board" text NOT NULL,
	"air_speed_m_s" double precision NOT NULL,
	"air" jsonb NOT NULL,
	CONSTRAINT "spots_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "stock" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"design_id" text NOT NULL,
	"stage" text NOT NULL,
	"glaze_id" text,
	"count" integer NOT NULL,
	CONSTRAINT "stock_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "studios" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"zone" text NOT NULL,
	"ware_board_count" integer NOT NULL,
	"covers" jsonb NOT NULL,
	"least_session_min" integer NOT NULL,
	"look_in_min" integer NOT NULL,
	"window_odds" double precision NOT NULL,
	"glaze_dry_hours" double precision NOT NULL,
	"mix_bisque_and_glaze" boolean NOT NULL,
	"wanted_fill" double precision NOT NULL,
	"price_per_kwh" double precision NOT NULL,
	"co2_kg_per_kwh" double precision NOT NULL,
	"altitude_m" double precision NOT NULL,
	"log_position" integer DEFAULT 0 NOT NULL
);
--> statement-breakpoint
CREATE TABLE "supplies" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"name" text NOT NULL,
	"kilns_at_once" integer NOT NULL,
	CONSTRAINT "supplies_studio_id_id_pk" PRIMARY KEY("studio_id","id")
);
--> statement-breakpoint
CREATE TABLE "tokens" (
	"studio_id" text NOT NULL,
	"id" text NOT NULL,
	"kind" text NOT NULL,
	"name" text NOT NULL,
	"hash" text NOT NULL,
	"spot_id" text,
	"made_at" timestamp (3) with time zone DEFAULT clock_timestamp() NOT NULL,
	"revoked_at" timestamp (3) with time zone,
	CONSTRAINT "tokens_studio_id_id_pk" PRIMARY KEY("studio_id","id"),
	CONSTRAINT "tokens_hash" UNIQUE("hash")
);
--> statement-breakpoint
ALTER TABLE "air_readings" ADD CONSTRAINT "air_readings_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "air_readings" ADD CONSTRAINT "air_readings_spot" FOREIGN KEY ("studio_id","spot_id") REFERENCES "public"."spots"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "busy_times" ADD CONSTRAINT "busy_times_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "busy_times" ADD CONSTRAINT "busy_times_maker" FOREIGN KEY ("studio_id","maker_id") REFERENCES "public"."makers"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "clays" ADD CONSTRAINT "clays_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "design_parts" ADD CONSTRAINT "design_parts_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "design_parts" ADD CONSTRAINT "design_parts_design" FOREIGN KEY ("studio_id","design_id") REFERENCES "public"."designs"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "design_steps" ADD CONSTRAINT "design_steps_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "design_steps" ADD CONSTRAINT "design_steps_design" FOREIGN KEY ("studio_id","design_id") REFERENCES "public"."designs"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "design_steps" ADD CONSTRAINT "design_steps_mould" FOREIGN KEY ("studio_id","mould_id") REFERENCES "public"."moulds"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "designs" ADD CONSTRAINT "designs_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "designs" ADD CONSTRAINT "designs_clay" FOREIGN KEY ("studio_id","clay_id") REFERENCES "public"."clays"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "designs" ADD CONSTRAINT "designs_bisque_schedule" FOREIGN KEY ("studio_id","bisque_schedule_id") REFERENCES "public"."firing_schedules"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "designs" ADD CONSTRAINT "designs_glaze_schedule" FOREIGN KEY ("studio_id","glaze_schedule_id") REFERENCES "public"."firing_schedules"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_schedules" ADD CONSTRAINT "firing_schedules_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glazes" ADD CONSTRAINT "glazes_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "hours" ADD CONSTRAINT "hours_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "hours" ADD CONSTRAINT "hours_maker" FOREIGN KEY ("studio_id","maker_id") REFERENCES "public"."makers"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kilns" ADD CONSTRAINT "kilns_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kilns" ADD CONSTRAINT "kilns_supply" FOREIGN KEY ("studio_id","supply_id") REFERENCES "public"."supplies"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "learned" ADD CONSTRAINT "learned_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "log_entries" ADD CONSTRAINT "log_entries_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "makers" ADD CONSTRAINT "makers_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "moulds" ADD CONSTRAINT "moulds_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_lines" ADD CONSTRAINT "order_lines_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_lines" ADD CONSTRAINT "order_lines_order" FOREIGN KEY ("studio_id","order_id") REFERENCES "public"."orders"("studio_id","id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_lines" ADD CONSTRAINT "order_lines_design" FOREIGN KEY ("studio_id","design_id") REFERENCES "public"."designs"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_lines" ADD CONSTRAINT "order_lines_glaze" FOREIGN KEY ("studio_id","glaze_id") REFERENCES "public"."glazes"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "orders" ADD CONSTRAINT "orders_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pins" ADD CONSTRAINT "pins_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pins" ADD CONSTRAINT "pins_maker" FOREIGN KEY ("studio_id","maker_id") REFERENCES "public"."makers"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "plans" ADD CONSTRAINT "plans_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "spots" ADD CONSTRAINT "spots_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock" ADD CONSTRAINT "stock_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock" ADD CONSTRAINT "stock_design" FOREIGN KEY ("studio_id","design_id") REFERENCES "public"."designs"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock" ADD CONSTRAINT "stock_glaze" FOREIGN KEY ("studio_id","glaze_id") REFERENCES "public"."glazes"("studio_id","id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "supplies" ADD CONSTRAINT "supplies_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tokens" ADD CONSTRAINT "tokens_studio_id_studios_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studios"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "plans_newest" ON "plans" USING btree ("studio_id","number");