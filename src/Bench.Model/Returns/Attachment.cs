namespace Bench.Model.Returns;

/// <summary>A photo or file that belongs to a return, named by its content.</summary>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hexadecimal; also its name in the store.</param>
/// <param name="Name">The name it came with.</param>
/// <param name="MediaType">What its first bytes say it is, e.g. <c>image/png</c>.</param>
/// <param name="Bytes">Its size, bytes.</param>
public sealed record Attachment(string Sha256, string Name, string MediaType, long Bytes);
