namespace Sandarac.Analysis.Tests.Support;

/// <summary>Data that may not be copied into the repository: read in place, or the test is skipped.</summary>
internal static class SharedData
{
    /// <summary>Path of a file below the data folder: <c>SANDARAC_DATA</c>, or <c>shared/data</c> in a folder above the program.</summary>
    public static string Require(params string[] path)
    {
        var folder = Environment.GetEnvironmentVariable("SANDARAC_DATA");
        for (var above = AppContext.BaseDirectory; folder is null && above is not null; above = Path.GetDirectoryName(above))
            if (Directory.Exists(Path.Combine(above, "shared", "data"))) folder = Path.Combine(above, "shared", "data");
        var file = Path.Combine([folder ?? "", .. path]);
        Assert.SkipUnless(folder is not null && File.Exists(file), "skipped: data not present");
        return file;
    }
}
