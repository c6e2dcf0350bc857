using Bench.Model.Profiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.Profiles;

public class ProfileErrorTests
{
    [Fact]
    public void Read_SmallProfile_IsValid() => Assert.Equal("drip-gate-2", ProfileReader.Read(SmallProfile.Text, "p.toml").Family);

    // 2 A at 24 V are 2.4 A at 28.8 V.
    [Theory]
    [InlineData("2.4", 1)]
    [InlineData("2.41", 0)]
    public void Read_HighSupplyWithSuchAnOverCurrent_IsRefusedWhereAStartWouldTripIt(string overCurrent, int refusals)
    {
        string text = Refusal.Break(Refusal.Break(SmallProfile.Text, "over_current_a = 2.6", $"over_current_a = {overCurrent}"), "kind = \"port-moves\"\nmost_s = 100\nmost_moves = 20", "kind = \"high-supply\"\nmost_s = 100\nmost_moves = 200\np0 = 0.005\np1 = 0.08");
        string[] messages = refusals == 0 ? [] : [.. Refusal.Messages(() => ProfileReader.Read(text, "p.toml"))];
        Assert.Equal(refusals, messages.Count(m => m.Contains("at supply_max_v a motor that starts takes up to 2.4 A", StringComparison.Ordinal)));
        Assert.Equal(refusals, messages.Length);
        if (refusals == 0)
        {
            Assert.Equal("drip-gate-2", ProfileReader.Read(text, "p.toml").Family);
        }
    }

    [Theory]
    [InlineData("schema = 1", "schema = 3", "p.toml:1: schema: found 3; this program reads schema 1 only")]
    [InlineData("title = \"Drip gate\"", "titel = \"Drip gate\"", "p.toml:4: family.titel: found an unknown key; did you mean 'title'?")]
    [InlineData("title = \"Drip gate\"", "titel = \"Drip gate\"", "p.toml:2: family.title: found nothing; this key is required")]
    [InlineData("part_numbers = [\"DG2\"]", "part_numbers = []", "p.toml:7: family.part_numbers: found a list; a list of texts, at least one, is allowed")]
    [InlineData("part_numbers = [\"DG2\"]", "part_numbers = [\"DG2\", 3]", "p.toml:7: family.part_numbers: found a list; a list of texts, at least one, is allowed")]
    [InlineData("part_numbers = [\"DG2\"]", "part_numbers = \"DG2\"", "p.toml:7: family.part_numbers: found \"DG2\"; a list of texts, at least one, is allowed")]
    [InlineData("ring_counts = 100", "ring_counts = 2", "p.toml:9: unit.ring_counts: found 2; a whole number from 3 to 65536 is allowed")]
    [InlineData("ring_counts = 100", "ring_counts = 100.5", "p.toml:9: unit.ring_counts: found 100.5; a whole number from 3 to 65536 is allowed")]
    [InlineData("feedback = \"ring\"", "feedback = \"switches\"", "p.toml:8: unit.switch_width_counts: found nothing; this key is required")]
    [InlineData("feedback = \"ring\"", "feedback = \"ring\"\nswitch_width_counts = 10", "p.toml:12: unit.switch_width_counts: found 10; only for feedback = \"switches\"; remove it")]
    [InlineData("feedback = \"ring\"", "feedback = \"switches\"\nswitch_width_counts = 26", "p.toml:12: unit.switch_width_counts: found 26; at most 25 is allowed, half of the shortest way between two ports")]
    [InlineData("drive = \"reversing\"", "drive = \"both\"", "p.toml:10: unit.drive: found \"both\"; allowed: \"single\", \"reversing\", \"commanded\"")]
    [InlineData("drive = \"reversing\"", "drive = \"commanded\"", "p.toml:8: unit.landing_tolerance_counts: found nothing; this key is required")]
    [InlineData("drive = \"reversing\"", "drive = \"commanded\"\nlanding_tolerance_counts = 25", "p.toml:11: unit.landing_tolerance_counts: found 25; less than a quarter of ring_counts is allowed")]
    [InlineData("drive = \"reversing\"", "drive = \"reversing\"\nlanding_tolerance_counts = 5", "p.toml:11: unit.landing_tolerance_counts: found 5; only for drive = \"commanded\"; remove it")]
    [InlineData("drive = \"reversing\"\nfeedback = \"ring\"", "drive = \"commanded\"\nlanding_tolerance_counts = 5\nfeedback = \"incremental\"", "p.toml:12: unit.feedback: found \"incremental\"; a commanded unit is told a count of its own ring and watched by it; allowed: \"ring\"")]
    [InlineData("index_width_counts = 10", "index_width_counts = 10\nindex_count = 100", "p.toml:13: unit.index_count: found 100; less than ring_counts (100) is allowed")]
    [InlineData("index_width_counts = 10", "index_count = 25", "p.toml:12: unit.index_count: found 25; only with index_width_counts: a family without an index has no place for it")]
    [InlineData("index_width_counts = 10", "index_width_counts = 50", "p.toml:12: unit.index_width_counts: found 50; less than half of ring_counts is allowed")]
    [InlineData("count = 50", "count = 100", "p.toml:18: port[2].count: found 100; a whole number from 0 to 99 is allowed")]
    [InlineData("count = 50", "count = 0", "p.toml:18: port[2].count: found 0; each count of a port is allowed once")]
    [InlineData("name = \"B\"", "name = \"A\"", "p.toml:17: port[2].name: found \"A\"; each port name is allowed once")]
    [InlineData("[[port]]\nname = \"B\"\ncount = 50", "", "p.toml:13: port: found a list; tables headed [[port]] are allowed, at least 2")]
    [InlineData("supply_min_v = 20.4", "supply_min_v = 24.5", "p.toml:21: electrical.supply_min_v: found 24.5; below supply_nominal_v (24) is allowed")]
    [InlineData("supply_max_v = 28.8", "supply_max_v = 23", "p.toml:20: electrical.supply_nominal_v: found 24.0; below supply_max_v (23) is allowed")]
    [InlineData("supply_max_v = 28.8", "supply_max_v = 230", "p.toml:22: electrical.supply_max_v: found 230; a number above 0, at most 120, is allowed")]
    [InlineData("no_load_current_a = 0.05", "no_load_current_a = 0.3", "p.toml:25: electrical.no_load_current_a: found 0.3; below running_current_a (0.22) is allowed")]
    [InlineData("running_current_a = 0.22", "running_current_a = 2.2", "p.toml:27: electrical.running_current_a: found 2.2; below stall_current_a (2) is allowed")]
    [InlineData("over_current_a = 2.6", "over_current_a = 2.0", "p.toml:31: safety.over_current_a: found 2.0; above electrical.stall_current_a (2) is allowed, else every start trips")]
    [InlineData("dead_time_ms = 60", "dead_time_ms = 0", "p.toml:32: safety.dead_time_ms: found 0; a number from 1 to 10000 is allowed")]
    [InlineData("dead_time_ms = 60", "dead_time = 60", "p.toml:32: safety.dead_time: found an unknown key; did you mean 'dead_time_ms'?")]
    [InlineData("no_motion_ms = 400", "no_motion_ms = 9000", "p.toml:33: safety.no_motion_ms: found 9000; below most_on_ms (9000) is allowed")]
    [InlineData("most_on_ms = 9000", "most_on_ms = 2000", "p.toml:35: safety.most_on_ms: found 2000; above one revolution (2000 ms at electrical.running_speed_counts_per_s) is allowed, else long moves abort")]
    [InlineData("most_duty = 0.85", "most_duty = 1.1", "p.toml:36: safety.most_duty: found 1.1; a number from 0.01 to 1 is allowed")]
    [InlineData("[[stage]]\nkind = \"supply\"\nmost_s = 2", "", "p.toml:40: stage[1].kind: found \"homing\"; the first stage is \"supply\": a bench that is not sound must not turn a unit")]
    [InlineData("kind = \"homing\"\nmost_s = 60\nrevolutions = 2", "kind = \"endurance\"\nmost_s = 60\nmost_moves = 9", "p.toml:42: stage[2].kind: found \"endurance\"; a \"homing\" stage must come before: moves start from a known port")]
    [InlineData("kind = \"port-moves\"", "kind = \"supply\"", "p.toml:47: stage[3].kind: found \"supply\"; each kind of stage is allowed once")]
    [InlineData("kind = \"port-moves\"", "kind = \"port_moves\"", "p.toml:47: stage[3].kind: found \"port_moves\"; allowed: \"supply\", \"homing\", \"port-moves\", \"endurance\", \"starts\", \"low-supply\", \"high-supply\", \"connector\", \"warm\", \"uncoupled\"")]
    [InlineData("kind = \"homing\"\nmost_s = 60\nrevolutions = 2", "kind = \"uncoupled\"\nmost_s = 1", "p.toml:42: stage[2].kind: found \"uncoupled\"; a \"homing\" stage must come before: moves start from a known port")]
    [InlineData("kind = \"port-moves\"\nmost_s = 100\nmost_moves = 20", "kind = \"uncoupled\"\nmost_s = 30", "p.toml:48: stage[3].most_s: found 30; a number above 0, at most 3, is allowed")]
    [InlineData("kind = \"port-moves\"\nmost_s = 100\nmost_moves = 20", "kind = \"uncoupled\"\nmost_s = 1\nsettle_ms = 9\n[[stage]]\nkind = \"endurance\"\nmost_s = 1\nmost_moves = 2", "p.toml:51: stage[4].kind: found \"endurance\"; no stage comes after \"uncoupled\": the valve is off then")]
    [InlineData("kind = \"port-moves\"", "kind = \"starts\"\np0 = 0.005\np1 = 0.08", "p.toml:51: stage[3].most_moves: found 20; 36 or more is allowed: with these p0, p1, alpha and beta fewer moves can't show even a unit that never fails")]
    [InlineData("kind = \"port-moves\"", "kind = \"starts\"\np0 = 0.2\np1 = 0.1", "p.toml:49: stage[3].p1: found 0.1; above p0 (0.2) is allowed")]
    [InlineData("kind = \"port-moves\"", "kind = \"starts\"\np0 = 0.2", "p.toml:46: stage[3].p1: found nothing; this key is required")]
    [InlineData("kind = \"port-moves\"\nmost_s = 100\nmost_moves = 20\nsettle_ms = 351", "kind = \"connector\"\nmost_s = 10\np0 = 0.005\np1 = 0.2", "p.toml:48: stage[3].most_s: found 10; 13 or more is allowed: with these p0, p1, alpha and beta fewer moves can't show even a unit that never fails")]
    [InlineData("kind = \"port-moves\"\nmost_s = 100\nmost_moves = 20\nsettle_ms = 351", "kind = \"connector\"\nmost_s = 400\np0 = 0.005\np1 = 0.2", "p.toml:48: stage[3].most_s: found 400; a number from 1 to 300 is allowed")]
    [InlineData("kind = \"port-moves\"", "kind = \"connector\"\np0 = 0.005\np1 = 0.2", "p.toml:51: stage[3].most_moves: found 20; not for a \"connector\" stage; remove it")]
    [InlineData("most_duty = 0.85", "most_duty = 0.85\nwinding_thermal_k_per_w = 12\nwinding_time_constant_s = 20\nhousing_thermal_k_per_w = 32\nhousing_time_constant_s = 20\nwinding_most_celsius = 110\nambient_most_celsius = 40", "p.toml:40: safety.housing_time_constant_s: found 20; above winding_time_constant_s (20) is allowed")]
    [InlineData("kind = \"port-moves\"", "kind = \"warm\"\nwarm_celsius = 60\np0 = 0.005\np1 = 0.2", "p.toml:47: stage[3].kind: found \"warm\"; the profile says nothing of its winding's heat; add winding_thermal_k_per_w and its like to [safety]")]
    [InlineData("kind = \"port-moves\"", "kind = \"low-supply\"\np0 = 0.2", "p.toml:46: stage[3].p1: found nothing; this key is required")]
    [InlineData("kind = \"port-moves\"", "kind = \"port-moves\"\np0 = 0.2", "p.toml:48: stage[3].p0: found 0.2; not for a \"port-moves\" stage; remove it")]
    [InlineData("settle_ms = 351", "settle_ms = 351\n[[stage]]\nkind = \"starts\"\nmost_s = 9\nmost_moves = 99\nsettle_ms = 9\np0 = 0.005\np1 = 0.08\n[[stage]]\nkind = \"endurance\"\nmost_s = 1\nmost_moves = 2\nsettle_ms = 9", "p.toml:59: stage[5].kind: found \"endurance\"; it comes before \"starts\": a unit is tested as it is used before it is provoked")]
    [InlineData("most_s = 2\n", "most_s = 2\nsettle_ms = 5\n", "p.toml:41: stage[1].settle_ms: found 5; not for a \"supply\" stage; remove it")]
    [InlineData("most_moves = 20", "", "p.toml:46: stage[3].most_moves: found nothing; this key is required")]
    [InlineData("revolutions = 2", "revolutions = 0", "p.toml:44: stage[2].revolutions: found 0; a number above 0, at most 20, is allowed")]
    [InlineData("feature = \"feedback.dropouts\"", "feature = \"feedback.drop_outs\"", "p.toml:58: limit[2].feature: found the unknown feature feedback.drop_outs; did you mean 'feedback.dropouts'?")]
    [InlineData("feature = \"feedback.dropouts\"", "feature = \"bench.supply_open_v\"", "p.toml:58: limit[2].feature: found \"bench.supply_open_v\"; each feature is allowed once")]
    [InlineData("lower = 20.5", "lower = 29", "p.toml:53: limit[1].lower: found 29; at most upper (28.5) is allowed")]
    [InlineData("upper = 0\n", "", "p.toml:57: limit[2]: found neither lower nor upper; at least one of them is required")]
    [InlineData("feature = \"feedback.dropouts\"", "feature = \"landing.repeatability_counts\"", "p.toml:60: limit[2].rule: found \"simple\"; \"guarded\" is allowed for repair and scrap: this is a measured value, and none condemns a unit inside its own uncertainty")]
    [InlineData("rule = \"simple\"", "rule = \"strict\"", "p.toml:60: limit[2].rule: found \"strict\"; allowed: \"simple\", \"guarded\"")]
    [InlineData("severity = \"hold\"", "severity = \"scrap\"", "p.toml:56: limit[1].severity: found \"scrap\"; \"hold\" or \"note\" is allowed: the bench's own condition never condemns a unit")]
    [InlineData("severity = \"hold\"", "severity = \"hold\"\nremedy = \"exchange-connector\"", "p.toml:57: limit[1].remedy: found \"exchange-connector\"; a remedy goes with severity = \"repair\" only; remove it")]
    [InlineData("remedy = \"exchange-connector\"", "remedy = \"exchange-conector\"", "p.toml:62: limit[2].remedy: found \"exchange-conector\"; there is no such remedy; did you mean 'exchange-connector'?")]
    [InlineData("remedy = \"exchange-connector\"", "", "p.toml:57: limit[2].remedy: found nothing; this key is required")]
    [InlineData("p1 = 0.08", "p1 = 0.005", "p.toml:65: demonstration.p1: found 0.005; above p0 (0.005) is allowed")]
    [InlineData("beta = 0.06", "beta = 0.5", "p.toml:67: demonstration.beta: found 0.5; a number between 0 and 0.5, neither included, is allowed")]
    [InlineData("ring_coverage = 0.98", "ring_coverage = 98", "p.toml:69: demonstration.ring_coverage: found 98; a number from 0 to 1 is allowed")]
    [InlineData("greatest_repair_fraction = 0.5", "greatest_repair_fraction = true", "p.toml:75: economics.greatest_repair_fraction: found true; a number from 0 to 1 is allowed")]
    [InlineData("order = 1", "order = 0", "p.toml:81: remedy[1].order: found 0; a whole number from 1 to 1000 is allowed")]
    [InlineData("prior = 0.25", "prior = 0.2", "p.toml:82: fault: found priors that sum to 0.95; they must sum to 1")]
    [InlineData("id = \"none\"", "id = \"nothing\"", "p.toml:82: fault: found no mode with id = \"none\"; one is required: the healthy unit among the returns")]
    [InlineData("id = \"intermittent-connector\"", "id = \"none\"", "p.toml:88: fault[2].id: found \"none\"; each fault mode is allowed once")]
    [InlineData("id = \"intermittent-connector\"", "id = \"none\"", "p.toml:94: fault[2].shows: found a table; the fault mode \"none\" shows nothing; remove it")]
    [InlineData("expect = \"The feedback drops out\"", "", "p.toml:87: fault[2]: found next_check alone; next_check and expect go together")]
    [InlineData("prior = 0.75", "prior = 0.75\nminutes = 5", "p.toml:86: fault[1].minutes: found 5; they are those of next_check; remove them, or name the check")]
    [InlineData("prior = 0.25", "prior = 0.25\nminutes = 0", "p.toml:91: fault[2].minutes: found 0; a number above 0, at most 480, is allowed")]
    [InlineData("prior = 0.25", "prior = 0.25\nremedy = \"exchange-conector\"", "p.toml:91: fault[2].remedy: found \"exchange-conector\"; there is no such remedy; did you mean 'exchange-connector'?")]
    [InlineData("prior = 0.75", "prior = 0.75\nremedy = \"exchange-connector\"", "p.toml:86: fault[1].remedy: found \"exchange-connector\"; the fault mode \"none\" needs none; remove it")]
    [InlineData("explains_feedback_fault = true", "explains_feedback_fault = \"yes\"", "p.toml:91: fault[2].explains_feedback_fault: found \"yes\"; true or false is allowed")]
    [InlineData("feedback.dropouts = 0.95", "feedback.dropouts = 1", "p.toml:95: fault[2].shows.feedback.dropouts: found 1; a number between 0 and 1, neither included, is allowed")]
    [InlineData("feedback.dropouts = 0.95", "feedback.drops = 0.95", "p.toml:95: fault[2].shows.feedback.drops: found the unknown feature feedback.drops; did you mean 'feedback.dropouts'?")]
    [InlineData("feedback.dropouts = 0.95", "feedback.dropouts = 0.95\n\"feedback.dropouts\" = 0.9", "p.toml:96: fault[2].shows.feedback.dropouts: found feedback.dropouts twice; each feature is allowed once")]
    [InlineData("feedback.dropouts = 0.95", "\"feedback.dropouts\\n\" = 0.95", "p.toml:95: fault[2].shows.\"feedback.dropouts \": found the unknown feature \"feedback.dropouts \"; did you mean 'feedback.dropouts'?")]
    [InlineData("title = \"Drip gate\"", "title = \"Drip gate\"\n\"\" = 1", "p.toml:5: family.\"\": found an unknown key; allowed: id, title, version, author, approval, part_numbers")]
    [InlineData("most_moves = 120", "most_moves = 35", "p.toml:68: demonstration.most_moves: found 35; 36 or more is allowed: with these p0, p1, alpha and beta fewer moves can't show even a unit that never fails")]
    [InlineData("[economics]", "[money]", "p.toml:71: money: found an unknown table; allowed: schema, family, unit, port, electrical, safety, stage, demonstration, economics, remedy, limit, inspection, fault, claim")]
    [InlineData("[economics]", "[money]", "p.toml:1: economics: found nothing; the table [economics] is required")]
    [InlineData("[economics]", "[economic]", "p.toml:71: economic: found an unknown table; did you mean 'economics'?")]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected)
    {
        string[] messages = Refusal.Messages(() => ProfileReader.Read(Refusal.Break(SmallProfile.Text, part, by), "p.toml"));

        Assert.Contains(expected, messages);
    }

    [Fact]
    public void Read_ManyThingsWrong_SaysAllAtOnceInOrderOfLines()
    {
        string text = Refusal.Break(SmallProfile.Text, "count = 50", "count = 500");
        text = Refusal.Break(text, "p1 = 0.08", "p1 = 0.001");
        text = Refusal.Break(text, "over_current_a = 2.6", "over_curent_a = 2.6");

        Assert.Equal(
            [
                "p.toml:18: port[2].count: found 500; a whole number from 0 to 99 is allowed",
                "p.toml:30: safety.over_current_a: found nothing; this key is required",
                "p.toml:31: safety.over_curent_a: found an unknown key; did you mean 'over_current_a'?",
                "p.toml:65: demonstration.p1: found 0.001; above p0 (0.005) is allowed",
            ],
            Refusal.Messages(() => ProfileReader.Read(text, "p.toml")));
    }
}
