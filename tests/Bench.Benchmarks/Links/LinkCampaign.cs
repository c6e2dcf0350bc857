using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Bench.Benchmarks.Links;

/// <summary>
/// Measures the links against libmodbus in C, the wire and the clock, and holds the figures against their targets.
/// Each ratio is the median over rounds, and each round asks the same server with both clients, all on one core: clocks
/// drift by a third from minute to minute, and a wake-up across cores costs more than the exchange.
/// </summary>
internal static class LinkCampaign
{
    private const int Rounds = 7;
    private const int WarmUp = 5000;
    private const int Reads = 20000;
    private const double LeastRatio = 1.0;
    private const double LeastWirePercent = 98;
    private const double MostJitterMs = 2;

    /// <summary>What is left of the process's own bookkeeping when it is spread over all reads.</summary>
    private const double MostBytes = 0.5;

    private static readonly int[] Speeds = [9600, 19200, 38400, 115200];

    /// <summary>Runs it all.</summary>
    /// <param name="core">Number of the core for the ratios.</param>
    /// <returns>0 when every target is met.</returns>
    public static async Task<int> RunAsync(string core)
    {
        Say($"load average {(await File.ReadAllTextAsync("/proc/loadavg")).Trim()}");
        string server = await Peer.BuildAsync("modbus_server");
        string client = await Peer.BuildAsync("modbus_client");
        (double tcp, double tcpBytes) = await RatioAsync("tcp", server, client, core);
        (double rtu, double rtuBytes) = await RatioAsync("rtu", server, client, core);
        double slowBytes = Math.Max(await SlowDeviceAsync("tcp", server), await SlowDeviceAsync("rtu", server));
        File.Delete(server);
        File.Delete(client);

        double wire = double.PositiveInfinity;
        foreach (int baud in Speeds)
        {
            (double rate, double most, double bytes) = WireShare.Measure(baud);
            wire = Math.Min(wire, 100 * rate / most);
            Say($"wire {baud,6} baud          {rate,8:0.0} of {most,6:0.0} transactions/s   {100 * rate / most,6:0.00} %   both ends, virtual time: {bytes:0} B a transaction");
        }

        (double[] late, long missed, long failed) = await PollJitter.MeasureAsync(TimeSpan.FromSeconds(5));
        double jitter = late[(int)(0.99 * late.Length)];
        Say($"32 units at 100 Hz        {late.Length} polls, {missed} left out, {failed} failed; late by {late[late.Length / 2]:0.000} ms in the median, {jitter:0.000} at 99 %, {late[^1]:0.0} at most");

        double alloc = Math.Max(slowBytes, Math.Max(tcpBytes, rtuBytes));
        bool met = tcp >= LeastRatio && rtu >= LeastRatio && wire >= LeastWirePercent && alloc < MostBytes && jitter < MostJitterMs
            && failed == 0 && missed <= late.Length / 100;
        Say($"RESULT tcp_ratio={tcp:0.00} rtu_ratio={rtu:0.00} wire_pct={wire:0.00} alloc_b={alloc:0} jitter_ms={jitter:0.000}");
        return met ? 0 : 1;
    }

    private static async Task<(double Ratio, double Bytes)> RatioAsync(string kind, string server, string client, string core)
    {
        (string port, Func<string, Task<Peer>> start) = Server(kind, server);
        using Peer served = await start("0");
        string where = kind == "tcp" ? port : served.Lines[0];
        await Peer.RunAsync("taskset", "-pc", core, Id(served));
        List<(double Theirs, double Ours, double Bytes)> rounds = [];
        for (int i = 0; i < Rounds; i++)
        {
            double theirs = Number(await Peer.RunAsync("taskset", "-c", core, client, kind, where, Text(WarmUp), Text(Reads)));
            string[] ours = (await Peer.RunAsync("taskset", "-c", core, Environment.ProcessPath!, "ask", kind, where, Text(Reads))).Split(' ');
            rounds.Add((theirs, Number(ours[0]), Number(ours[1])));
        }

        double ratio = Median(rounds.Select(r => r.Ours / r.Theirs));
        double bytes = Median(rounds.Select(r => r.Bytes));
        Say($"{kind} against libmodbus     {Median(rounds.Select(r => r.Ours)),8:0} to {Median(rounds.Select(r => r.Theirs)),6:0} transactions/s   ratio {ratio:0.00} ({rounds.Min(r => r.Ours / r.Theirs):0.00} to {rounds.Max(r => r.Ours / r.Theirs):0.00})   {bytes:0.000} B a transaction");
        return (ratio, bytes);
    }

    /// <summary>A device that takes longer than a read waits in place, so that each read leaves its thread.</summary>
    private static async Task<double> SlowDeviceAsync(string kind, string server)
    {
        (string port, Func<string, Task<Peer>> start) = Server(kind, server);
        using Peer served = await start("8000");
        string[] ours = (await Peer.RunAsync(
            Environment.ProcessPath!, "ask", kind, kind == "tcp" ? port : served.Lines[0], "500")).Split(' ');
        Say($"{kind}, device takes 8 ms    {Number(ours[0]),8:0} transactions/s   {Number(ours[1]):0.000} B a transaction");
        return Number(ours[1]);
    }

    private static (string Port, Func<string, Task<Peer>> Start) Server(string kind, string server)
    {
        string port = kind == "tcp" ? FreePort() : "-";
        return (port, delayUs => Peer.StartAsync(server, kind, port, delayUs));
    }

    private static string FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return Text(((IPEndPoint)listener.LocalEndpoint).Port);
    }

    private static string Id(Peer peer) => Text(peer.Id);

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static void Say(FormattableString text) => Console.WriteLine(FormattableString.Invariant(text));
}
