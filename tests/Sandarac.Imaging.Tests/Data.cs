namespace Sandarac.Imaging.Tests;

/// <summary>Test data that lies beside the checkout and not in it: the folder in SANDARAC_DATA, or a shared/data folder further up.</summary>
internal static class Data
{
    /// <summary>A folder of it; skips the test when it is not there.</summary>
    public static string Folder(string name)
    {
        for (var up = new DirectoryInfo(AppContext.BaseDirectory); up is not null; up = up.Parent)
            if (Path.Combine(up.FullName, "shared", "data", name) is var path && Directory.Exists(path)) return path;
        var stated = Path.Combine(Environment.GetEnvironmentVariable("SANDARAC_DATA") ?? "", name);
        if (!Path.IsPathRooted(stated) || !Directory.Exists(stated)) Assert.Skip("skipped: data not present");
        return stated;
    }
}
