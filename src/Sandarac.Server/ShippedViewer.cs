using Sandarac.Server.Files;

namespace Sandarac.Server;

/// <summary>The built viewer that comes with the program.</summary>
public static class ShippedViewer
{
    /// <summary>Its folder; empty or missing in a copy that was built without it.</summary>
    public static string Folder => Path.Combine(ShippedFiles.WebRoot, "viewer");
}
