namespace Bench.Running.Hands;

/// <summary>What a person is asked at a connector that is to be moved: come near, move it, step back.</summary>
internal static class ConnectorTasks
{
    /// <summary>The cautions, before a hand comes near.</summary>
    public static HandTask Approach { get; } = new(
        HandWork.ApproachConnector,
        "the connector is to be moved by hand",
        "",
        "No fault has shown, and a contact that opens only when its cable is moved would not have. The connector is to be moved by hand while the bench watches",
        [
            "The drive is off and read back, and the bench switches nothing on. The supply is still there: touch plastic and insulation only, one hand, no rings or bracelets; where the connector carries more than extra-low voltage, say no.",
            "A relay that is welded can still turn the shaft: keep hands, sleeves and tools away from shaft and valve, and the emergency stop within reach of the other hand.",
            "Stored pressure, hot or harmful fluid, wrist strap, eye protection: as you confirmed them. Local electrical codes and licensed practice come first.",
            "Do not unplug anything. Do not touch the connector yet.",
        ]);

    /// <summary>The work itself.</summary>
    public static HandTask Disturb { get; } = new(
        HandWork.DisturbConnector,
        "the connector is moved by hand",
        "",
        "Now move the feedback's and the supply's connector and the first hand's breadth of cable",
        [
            "Gently, without pause, in all directions: push, pull, twist, bend. About twice a second.",
            "Go on until the bench says stop. Stop at once if the shaft moves, something gets warm or smells, and press the emergency stop.",
        ]);

    /// <summary>Hands off, before anything may be energised again.</summary>
    public static HandTask Leave { get; } = new(
        HandWork.LeaveConnector,
        "hands are to be off",
        "hands are off, the connector is home",
        "Stop. The bench has read what it needs",
        [
            "Take your hands off, see that every connector is home and its lock closed, and step back.",
            "The unit may turn again once you answer yes; cautions and wiring as you confirmed them.",
        ]);
}
