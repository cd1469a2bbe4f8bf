using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Sandarac.Studio.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class SectionProposals : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "RunLayer",
                table: "SectionLayers",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "RunProposals",
                columns: table => new
                {
                    RunId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Geometry = table.Column<string>(type: "TEXT", nullable: false),
                    Confidence = table.Column<double>(type: "REAL", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RunProposals", x => new { x.RunId, x.Number });
                    table.ForeignKey(
                        name: "FK_RunProposals_Runs_RunId",
                        column: x => x.RunId,
                        principalTable: "Runs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "RunProposals");

            migrationBuilder.DropColumn(
                name: "RunLayer",
                table: "SectionLayers");
        }
    }
}
