using Bench.Benchmarks.Codec;
using Bench.Benchmarks.Interop;
using Bench.Benchmarks.Links;
using Bench.Benchmarks.Numbers;
using BenchmarkDotNet.Running;

// "links" and "numbers" are the tables of tests/campaigns/benchmarks.sh; "ask" and "serve" are its child processes,
// "exercise" and "device" those of tests/campaigns/interop.sh; anything else is
// handed to BenchmarkDotNet (for instance: --filter '*').
return args switch
{
    ["links", string core] => await LinkCampaign.RunAsync(core),
    ["numbers", string python] => NumbersCampaign.Run(python),
    ["ask", string kind, string where, string reads] => await Asking.RunAsync(kind, where, reads),
    ["exercise", string kind, string where, string transactions] => await Exerciser.RunAsync(kind, where, transactions),
    ["device", string kind, string where] => await ServedMemory.RunAsync(kind, where),
    ["serve", string links, string units] => await ServedUnits.RunAsync(links, units),
    _ => BenchmarkSwitcher.FromAssembly(typeof(CodecBenchmarks).Assembly).Run(args).Any() ? 0 : 1,
};
