namespace Bench.Model.BenchFiles;

/// <summary>The lines by which a board that talks text has its watchdog armed and asked; <c>{value}</c> is its time in counts, 0 when not armed.</summary>
/// <param name="Arm">Arms it.</param>
/// <param name="Armed">What is answered to that; null when nothing is.</param>
/// <param name="Ask">Asks for its time.</param>
/// <param name="Answer">What is answered to that.</param>
public sealed record WatchdogLines(LineTemplate Arm, LineTemplate? Armed, LineTemplate Ask, LineTemplate Answer);
