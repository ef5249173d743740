-- The logbook is only ever added to: an entry is never changed, and goes only with its whole studio.
CREATE FUNCTION "refuse_log_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' AND NOT EXISTS (SELECT FROM "studios" WHERE "id" = OLD."studio_id") THEN
    RETURN OLD;
  END IF;
  RAISE EXCEPTION 'log entries are never changed or removed; a correction is an entry of its own'
    USING ERRCODE = 'restrict_violation', TABLE = TG_TABLE_NAME;
END $$;
--> statement-breakpoint
CREATE TRIGGER "log_entries_append_only" BEFORE UPDATE OR DELETE ON "log_entries"
  FOR EACH ROW EXECUTE FUNCTION "refuse_log_change"();
--> statement-breakpoint
CREATE TRIGGER "log_entries_no_truncate" BEFORE TRUNCATE ON "log_entries"
  FOR EACH STATEMENT EXECUTE FUNCTION "refuse_log_change"();
--> statement-breakpoint
-- A plan stays as it was made; old ones may be removed.
CREATE FUNCTION "refuse_plan_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'a plan is never changed; another one is made'
    USING ERRCODE = 'restrict_violation', TABLE = TG_TABLE_NAME;
END $$;
--> statement-breakpoint
CREATE TRIGGER "plans_immutable" BEFORE UPDATE ON "plans"
  FOR EACH ROW EXECUTE FUNCTION "refuse_plan_change"();
