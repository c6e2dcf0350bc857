using Bench.Benchmarks.Codec;
using Bench.Benchmarks.Links;
using BenchmarkDotNet.Running;

// "links" is the table of tests/campaigns/benchmarks.sh; "ask" and "serve" are its child processes; anything else is
// handed to BenchmarkDotNet (for instance: --filter '*').
return args switch
{
    ["links", string core] => await LinkCampaign.RunAsync(core),
    ["ask", string kind, string where, string reads] => await Asking.RunAsync(kind, where, reads),
    ["serve", string links, string units] => await ServedUnits.RunAsync(links, units),
    _ => BenchmarkSwitcher.FromAssembly(typeof(CodecBenchmarks).Assembly).Run(args).Any() ? 0 : 1,
};
