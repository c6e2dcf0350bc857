using Bench.Model.Runs;
using Bench.Reporting.Html;

namespace Bench.Reporting.Sections;

/// <summary>The hashes that tie the packet to the record.</summary>
internal static class IntegritySection
{
    public static SafeHtml Of(SealedRun run) => Markup.Of(
        $"""
        <section aria-labelledby="integrity">
        <h2 id="integrity">Integrity</h2>
        <dl>
        <dt>This run</dt><dd><code>SHA-256 {run.Hash}</code></dd>
        <dt>Run before</dt><dd><code>{(run.PreviousHash.Length == 0 ? "none: the first of its store" : "SHA-256 " + run.PreviousHash)}</code></dd>
        <dt>Signature</dt><dd>{(run.Signature is { } signature ? Markup.Of($"by key <code>SHA-256 {signature.Key}</code><br/><code>{signature.Value}</code>") : Markup.Of($"none: sealed without a key"))}</dd>
        <dt>Trace</dt><dd>{(run.TraceFile is null ? Markup.Of($"none") : Markup.Of($"<bdi>{run.TraceFile}</bdi><br/><code>SHA-256 {run.TraceSha256}</code>"))}</dd>
        </dl>
        <p class="quiet">The run's hash covers its record, its trace and the hash of the run before. <code>bench verify</code> computes it again from the store; if it differs from the one printed here, record or packet was changed.</p>
        </section>
        """);
}
