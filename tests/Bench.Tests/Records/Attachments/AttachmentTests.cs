using System.Text;
using Bench.Model.Returns;
using Bench.Records;
using Bench.Records.Copies;
using Bench.Records.Integrity;

namespace Bench.Tests.Records.Attachments;

public sealed class AttachmentTests : IDisposable
{
    private static readonly byte[] Photo = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 1, 2, 3];

    private readonly DataFolder _folder = new();
    private readonly DataFolder _elsewhere = new();
    private readonly RecordStore _store;

    public AttachmentTests() => _store = _folder.Open();

    private string[] Kept => [.. Directory.GetFiles(Path.Combine(_folder.Path, "attachments")).Select(f => Path.GetFileName(f))];

    // SHA-256 of "abc": FIPS 180-4, example of NIST's "Secure Hash Standard" examples.
    [Fact]
    public void Attach_Content_IsKeptUnderItsHashWithoutTheFoldersOfItsName()
    {
        Attachment kept = _store.Attach(Path.Combine("some", "where", "abc.txt"), "abc"u8.ToArray());

        Assert.Equal(new Attachment("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", "abc.txt", "text/plain", 3), kept);
        Assert.Equal([kept.Sha256], Kept);
    }

    [Fact]
    public void Attach_SameContentTwice_IsKeptOnce()
    {
        _store.Attach("a.png", Photo);
        Assert.Equal("b.png", _store.Attach("b.png", Photo).Name);
        Assert.Single(Kept);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(RecordStore.MostAttachmentBytes + 1)]
    public void Attach_EmptyOrTooLarge_IsRefused(int bytes)
    {
        StoreException refused = Assert.Throws<StoreException>(() => _store.Attach("a.png", new byte[bytes]));
        Assert.Contains($"'a.png' has {bytes} bytes; 1 to 33554432 are allowed", refused.Message, StringComparison.Ordinal);
    }

    // Signatures by the formats' own standards: ISO/IEC 15948 (PNG), ISO/IEC 10918-1 (JPEG), ISO 32000 (PDF), ISO/IEC 14496-12 (MP4).
    [Theory]
    [InlineData("89504E470D0A1A0A00", "image/png")]
    [InlineData("FFD8FFE000104A46", "image/jpeg")]
    [InlineData("255044462D312E37", "application/pdf")]
    [InlineData("00000018667479706D703432", "video/mp4")]
    [InlineData("524946460000000057454250", "image/webp")]
    [InlineData("00010203", "application/octet-stream")]
    [InlineData("C3A9C3A9", "text/plain")]
    [InlineData("C328", "application/octet-stream")]
    public void Attach_WhateverItsName_IsOfTheTypeItsContentSays(string hex, string type) =>
        Assert.Equal(type, _store.Attach("photo.png", Convert.FromHexString(hex)).MediaType);

    [Fact]
    public void Verify_AttachmentAltered_NamesIt()
    {
        Attachment photo = TakeIn();
        File.WriteAllBytes(PathOf(photo), Encoding.UTF8.GetBytes("something else"));

        IntegrityProblem problem = Assert.Single(_store.Verify());
        Assert.Equal(IntegrityProblemKind.AttachmentAltered, problem.Kind);
        Assert.Contains("'drive-side.png' is not what was kept", problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_AttachmentGone_NamesItUntilItIsAttachedAgain()
    {
        Attachment photo = TakeIn();
        File.Delete(PathOf(photo));

        Assert.Equal(IntegrityProblemKind.AttachmentMissing, Assert.Single(_store.Verify()).Kind);
        _store.Attach("found-again.png", Photo);
        Assert.Empty(_store.Verify());
    }

    [Fact]
    public void Restore_Backup_BringsAttachmentsOfReturnsAndRunsBackEachOnce()
    {
        Attachment photo = TakeIn();
        Attachment log = _store.Attach("log.txt", "abc"u8.ToArray());
        RunWriting.Seal(_store, SampleRuns.Start() with { Return = Unit() with { Attachments = [photo, log] } });
        _store.Attach("of-no-return.txt", "left over"u8.ToArray());
        string backup = Path.Combine(_elsewhere.Path, "backup.zip");
        string to = Path.Combine(_elsewhere.Path, "restored");

        BackupManifest made = _store.BackUp(backup);
        Restoring.Run(backup, to);

        Assert.Equal(
            new[] { photo, log }.Select(a => $"attachments/{a.Sha256}").Order(StringComparer.Ordinal),
            made.Files.Select(f => f.Name).Where(n => n.StartsWith("attachments/", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        using RecordStore restored = RecordStore.Open(to, new FixedTime(), Durability.Relaxed);
        Assert.Empty(restored.Verify());
        Assert.Equal(Photo, File.ReadAllBytes(Path.Combine(to, "attachments", photo.Sha256)));
    }

    [Fact]
    public void BackUp_AttachmentGone_SaysSo()
    {
        Attachment photo = TakeIn();
        File.Delete(PathOf(photo));

        Assert.Equal([$"attachments/{photo.Sha256}"], _store.BackUp(Path.Combine(_elsewhere.Path, "backup.zip")).Missing);
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
        _elsewhere.Dispose();
    }

    private static UnitReturn Unit() => new() { Serial = "ND4-0001", Symptom = Symptom.Constant, ReturnNumber = "R-1" };

    private string PathOf(Attachment attachment) => Path.Combine(_folder.Path, "attachments", attachment.Sha256);

    private Attachment TakeIn()
    {
        Attachment photo = _store.Attach("drive-side.png", Photo);
        _store.TakeIn(Unit() with { Attachments = [photo] }, SampleRuns.Start().Profile);
        return photo;
    }
}
