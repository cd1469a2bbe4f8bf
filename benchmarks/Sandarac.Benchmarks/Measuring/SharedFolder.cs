namespace Sandarac.Benchmarks.Measuring;

/// <summary>Data that may not be copied into the repository: read in place.</summary>
internal static class SharedFolder
{
    /// <summary>What is said of a figure whose data are not there.</summary>
    public const string Missing = "not measured: data not present";

    /// <summary>A folder of <c>SANDARAC_DATA</c>, or of <c>shared/data</c> in a folder above the program: the same places as the tests'. Null when it is not there.</summary>
    public static string? Find(string name)
    {
        var data = Environment.GetEnvironmentVariable("SANDARAC_DATA");
        for (var above = AppContext.BaseDirectory; data is null && above is not null; above = Path.GetDirectoryName(above))
            if (Directory.Exists(Path.Combine(above, "shared", "data"))) data = Path.Combine(above, "shared", "data");
        var folder = Path.Combine(data ?? "", name);
        return data is not null && Directory.Exists(folder) ? folder : null;
    }
}
