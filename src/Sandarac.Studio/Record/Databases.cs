using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Sandarac.Studio.Record;

/// <summary>The record in SQLite, for one machine; has its own migrations.</summary>
public sealed class SqliteStudioDb : StudioDb
{
    internal SqliteStudioDb(DbContextOptions<SqliteStudioDb> options) : base(options)
    {
    }

    internal static SqliteStudioDb At(string connection) => new(new DbContextOptionsBuilder<SqliteStudioDb>()
        .UseSqlite(connection).AddInterceptors(DurableCommits.Instance).Options);

    internal sealed class ForTools : IDesignTimeDbContextFactory<SqliteStudioDb>
    {
        public SqliteStudioDb CreateDbContext(string[] args) => At("Data Source=:memory:");
    }
}

/// <summary>The record in PostgreSQL, for a laboratory; has its own migrations.</summary>
public sealed class PostgresStudioDb : StudioDb
{
    internal PostgresStudioDb(DbContextOptions<PostgresStudioDb> options) : base(options)
    {
    }

    internal static PostgresStudioDb At(string connection) => new(new DbContextOptionsBuilder<PostgresStudioDb>()
        .UseNpgsql(connection).Options);

    internal sealed class ForTools : IDesignTimeDbContextFactory<PostgresStudioDb>
    {
        public PostgresStudioDb CreateDbContext(string[] args) => At("Host=localhost");
    }
}
